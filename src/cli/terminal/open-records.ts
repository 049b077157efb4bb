/**
 * Opens a folder of records for commands that work on one. Reading opens it read-only. Problems of
 * database or chain are reported on stderr and, at the end, by the exit code.
 */

import { type Checked, problemLine } from '../../core/settings.ts';
import { indexMissing } from '../../store/index/sqlite.ts';
import type { RecordsStore } from '../../store/records-store.ts';
import { EXIT } from './exit-codes.ts';
import { printError } from './print.ts';

export interface RecordsOptions {
  readonly records: string;
}

export const complain = (lines: readonly string[]): void => printError(`${lines.join('\n')}\n`);

/**
 * Returns the exit code: bad input where the folder cannot be opened, fault where it is damaged.
 */
export async function withRecords(
  folder: string,
  how: 'read' | 'write',
  action: (store: RecordsStore) => number | Promise<number>,
): Promise<number> {
  // Only commands that need the database load it.
  const opened = await openedTo(folder, how);
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

async function openedTo(folder: string, how: 'read' | 'write'): Promise<Checked<RecordsStore>> {
  if (how === 'write') return (await import('./this-unit.ts')).openToWrite(folder);
  return (await import('../../store/records-store.ts')).openRecords(folder, { readOnly: true });
}

/**
 * Printed once per command that would use the index or bring it up to date. It is no fault of the
 * records.
 */
export function tellIndexMissing(): void {
  const missing = indexMissing();
  if (missing !== null) complain([`note: ${missing}`]);
}

export function noSuchRecord(folder: string, id: string): number {
  const accepted = 'a record shown by `meniscus records list`, or the id of a piece of care';
  complain([problemLine({ file: folder, path: 'ID', value: JSON.stringify(id), accepted })]);
  return EXIT.badInput;
}
