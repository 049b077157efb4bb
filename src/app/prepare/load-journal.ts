/**
 * Reads a journal file for commands that work on one; every problem is returned as data. Older
 * journals name people; they are left out here, as newer journals do.
 */
import { readFileSync } from 'node:fs';
import type { Checked } from '../../core/settings.ts';
import { withoutPeople } from '../../intake/sheet/job-sheet.ts';
import { type JournalContents, readJournal } from '../../journal/read-journal.ts';

export function loadJournal(file: string): Checked<JournalContents> {
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (error) {
    const value = `not readable (${error instanceof Error ? error.message : String(error)})`;
    const accepted = 'a journal that exists and may be read';
    return { ok: false, problems: [{ file, path: '', value, accepted }] };
  }
  const read = readJournal(text, file);
  if (!read.ok) return read;
  const { header } = read.value;
  if (header.procedure !== undefined) return read;
  const inputs = { ...header.inputs, job: withoutPeople(header.inputs.job) };
  return { ok: true, value: { ...read.value, header: { ...header, inputs } } };
}

/** For papers that exist only for repairs. */
export function loadRepairJournal(file: string): Checked<JournalContents> {
  const read = loadJournal(file);
  const procedure = read.ok ? read.value.header.procedure : undefined;
  if (procedure === undefined) return read;
  const accepted = 'the journal of a repair';
  return {
    ok: false,
    problems: [{ file, path: 'line 1, header.procedure', value: procedure, accepted }],
  };
}
