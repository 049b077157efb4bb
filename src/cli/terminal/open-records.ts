/**
 * How the commands that work on records open a folder: reading opens read-only; what is wrong with
 * database or chain is told on stderr and, when all is done, by the exit code.
 */

import { problemLine } from '../../core/settings.ts';
import { indexMissing } from '../../store/index/sqlite.ts';
import type { RecordsStore } from '../../store/records-store.ts';
import { EXIT } from './exit-codes.ts';
import { printError } from './print.ts';

export interface RecordsOptions {
  readonly records: string;
}

export const complain = (lines: readonly string[]): void => printError(`${lines.join('\n')}\n`);

/** Gives the exit code: bad input where the folder cannot be opened, fault where it is not whole. */
export async function withRecords(
  folder: string,
  how: 'read' | 'write',
  action: (store: RecordsStore) => number | Promise<number>,
): Promise<number> {
  // The database is loaded only by commands that need it.
  const { openRecords } = await import('../../store/records-store.ts');
  const opened = openRecords(folder, { readOnly: how === 'read' });
  if (!opened.ok) {
    complain(opened.problems.map(problemLine));
    return EXIT.badInput;
  }
  const { value: store } = opened;
  try {
    tellIndexMissing();
    const code = await action(store);
    const notes = store.notes();
    if (notes.length > 0) complain(notes.map((note) => `note: ${note}`));
    return code === EXIT.completed && notes.length > 0 ? EXIT.fault : code;
  } finally {
    store.close();
  }
}

/** Once a command, by those that would use the index or bring it up to date. No fault of the records. */
export function tellIndexMissing(): void {
  const missing = indexMissing();
  if (missing !== null) complain([`note: ${missing}`]);
}

export function noSuchRecord(folder: string, id: string): number {
  const accepted = 'a record that `meniscus records list` shows, or the id of a piece of care';
  complain([problemLine({ file: folder, path: 'ID', value: JSON.stringify(id), accepted })]);
  return EXIT.badInput;
}
