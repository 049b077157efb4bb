/**
 * Begins a job's record before the job: nothing starts until personal data and the journal's header
 * are on disk, and the chain has an entry that says so. A folder that was made for a record that
 * could not be begun is removed.
 */
import { rmdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { JobFacts } from '../../app/prepare/job-facts.ts';
import type { LoadedSettings } from '../../app/prepare/load-settings.ts';
import { keepJobPersonal, saltFor } from '../../app/prepare/personal.ts';
import { VERSION } from '../../app/version.ts';
import { type Checked, problemLine } from '../../core/settings.ts';
import { createJournal, type Journal } from '../../journal/journal.ts';
import { createHeader, type JournalHeader } from '../../journal/journal-format.ts';
import { appendEntry } from '../../store/chain/append.ts';
import { beginBodyOf } from '../../store/chain/begin-body.ts';
import { JOURNAL_FILE, jobPersonalPath } from '../../store/chain/paths.ts';
import type { Unit } from '../../store/chain/unit-key.ts';
import { thisUnit } from '../terminal/this-unit.ts';
import type { Session } from './session.ts';

export interface BegunRecord {
  readonly journal: Journal;
  /** Called once, where the journal cannot be written any more. */
  readonly onFailure: (tell: (error: unknown) => void) => void;
}

/** Where the journal's folder lies. */
export interface RecordPlace {
  readonly records: string;
  /** Name of the record: the path of its folder in the folder of records. */
  readonly id: string;
}

export interface RecordToBegin {
  readonly settings: LoadedSettings;
  readonly session: Session;
  readonly about: JobFacts;
}

export const beginRecord = (
  place: RecordPlace,
  { settings, session, about }: RecordToBegin,
): Checked<BegunRecord> =>
  beginJournal(place, (folder) =>
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

/** The folder is newly made and empty. */
export function beginJournal(
  { records, id }: RecordPlace,
  headerOf: (folder: string) => JournalHeader,
): Checked<BegunRecord> {
  const folder = join(records, id);
  const path = join(folder, JOURNAL_FILE);
  let report = (_: unknown): void => undefined;
  const begun: Journal[] = [];
  try {
    const header = headerOf(folder);
    const journal = createJournal({ path, header, onError: (error) => report(error) });
    begun.push(journal);
    const means = { newSalt: () => '', known: () => null, unit: unitOrThrow() };
    const body = beginBodyOf(records, folder, header);
    const { startedAt: at } = header;
    appendEntry(records, { at, kind: 'begin', id, body, personal: null }, means);
    const onFailure: BegunRecord['onFailure'] = (tell) => {
      report = tell;
    };
    return { ok: true, value: { journal, onFailure } };
  } catch (error) {
    for (const journal of begun) journal.close(NOT_BEGUN);
    for (const made of [path, jobPersonalPath(folder)]) rmSync(made, { force: true });
    rmdirSync(folder);
    const value = `not writable (${error instanceof Error ? error.message : String(error)})`;
    const accepted = 'a folder with room for a record: without one no job starts';
    return { ok: false, problems: [{ file: folder, path: '', value, accepted }] };
  }
}

const NOT_BEGUN = {
  reason: 'fault',
  why: 'The record could not be begun.',
  outcome: null,
} as const;

function unitOrThrow(): Unit {
  const unit = thisUnit();
  if (unit.ok) return unit.value;
  throw new Error(unit.problems.map(problemLine).join(' '));
}
