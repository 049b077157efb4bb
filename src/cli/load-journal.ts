/**
 * Reads a journal file for the commands that work on one; every problem comes back as data. Who did
 * an older job stands in its journal: it is left out here, as newer journals leave it out.
 */
import { readFileSync } from 'node:fs';
import { withoutPeople } from '../intake/job-sheet.ts';
import { type JournalContents, readJournal } from '../records/read-journal.ts';
import type { Checked } from '../settings.ts';

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
  const inputs = { ...header.inputs, job: withoutPeople(header.inputs.job) };
  return { ok: true, value: { ...read.value, header: { ...header, inputs } } };
}
