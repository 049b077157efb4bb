/**
 * Begins a job's record before the job: nothing starts until personal data and the journal's header
 * are on disk. A folder that was made for a record that could not be begun is removed.
 */
import { rmdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { JobFacts } from '../../app/prepare/job-facts.ts';
import type { LoadedSettings } from '../../app/prepare/load-settings.ts';
import { keepJobPersonal, saltFor } from '../../app/prepare/personal.ts';
import { VERSION } from '../../app/version.ts';
import type { Checked } from '../../core/settings.ts';
import { createJournal, type Journal } from '../../journal/journal.ts';
import { createHeader, type JournalHeader } from '../../journal/journal-format.ts';
import { JOURNAL_FILE, jobPersonalPath } from '../../store/chain/paths.ts';
import type { Session } from './session.ts';

export interface BegunRecord {
  readonly journal: Journal;
  /** Called once, where the journal cannot be written any more. */
  readonly onFailure: (tell: (error: unknown) => void) => void;
}

export interface RecordToBegin {
  readonly settings: LoadedSettings;
  readonly session: Session;
  readonly about: JobFacts;
}

export const beginRecord = (
  folder: string,
  { settings, session, about }: RecordToBegin,
): Checked<BegunRecord> =>
  beginJournal(folder, () =>
    createHeader({
      ...ranOn(session),
      inputs: { ...settings.inputs, extra: session.extra },
      display: settings.language,
      personalSha256: keepJobPersonal(folder, settings.people, saltFor(session.seed)),
      about,
    }),
  );

/** What every journal's header says about the program and the board. */
export const ranOn = ({ board, seed, startedAt }: Session) => ({
  version: VERSION,
  board: board.identity,
  seed,
  startedAt,
});

/** `folder`: newly made and empty. */
export function beginJournal(folder: string, headerOf: () => JournalHeader): Checked<BegunRecord> {
  const path = join(folder, JOURNAL_FILE);
  let report = (_: unknown): void => undefined;
  try {
    const journal = createJournal({ path, header: headerOf(), onError: (error) => report(error) });
    const onFailure: BegunRecord['onFailure'] = (tell) => {
      report = tell;
    };
    return { ok: true, value: { journal, onFailure } };
  } catch (error) {
    for (const made of [path, jobPersonalPath(folder)]) rmSync(made, { force: true });
    rmdirSync(folder);
    const value = `not writable (${error instanceof Error ? error.message : String(error)})`;
    const accepted = 'a folder with room for a record: without one no job starts';
    return { ok: false, problems: [{ file: folder, path: '', value, accepted }] };
  }
}
