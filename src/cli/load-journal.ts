/** Reads a journal file for the commands that work on one; every problem comes back as data. */
import { readFileSync } from 'node:fs';
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
  return readJournal(text, file);
}
