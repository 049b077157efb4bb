/**
 * Prepares another attempt of a job from the journals of those before it. The last journal is
 * replayed: only where every decision is the same does the controller's last state say how far the
 * job came. Job sheet, profile, intake and bottles are those of the job; a fresh bottle may be named.
 */
import { join } from 'node:path';
import { valueAt } from '../../core/settings.ts';
import type { JournalContents } from '../../journal/read-journal.ts';
import {
  cureOnlyEntry,
  type Entry,
  goOnEntry,
  isResinLiquid,
  type WayOn,
} from '../../procedure/repair/reentry.ts';
import { REPAIR } from '../../procedure/repair/repair.ts';
import type { RepairState } from '../../procedure/repair/repair-state.ts';
import type { AttemptFacts, EarlierAttempt } from '../../report/claims/attempt-facts.ts';
import { reportDataOf } from '../../report/report-data.ts';
import { fileSha256 } from '../../store/chain/file-sha256.ts';
import { attemptOfId, JOURNAL_FILE, jobPersonalPath } from '../../store/chain/paths.ts';
import { readPersonal } from '../../store/chain/personal-file.ts';
import { attemptsIn } from '../../store/verify/unrecorded.ts';
import { budgetLinesOf } from '../papers/journal-budgets.ts';
import { loadRepairJournal } from '../prepare/load-journal.ts';
import type { PrepareOptions } from '../prepare/prepare-run.ts';
import type { BuiltIn } from '../prepare/read-settings.ts';
import { replayJournal } from '../replay.ts';
import { configOfHeader } from './attempt-entry.ts';

export interface NextAttempt {
  readonly job: string;
  readonly number: number;
  readonly how: AttemptFacts['how'];
  readonly entry: Entry | null;
  readonly resinStood: boolean;
  readonly earlier: readonly EarlierAttempt[];
  /** ISO 8601: when the last attempt ended. */
  readonly endedAt: string;
  /** The files of the job, under the name of its first journal. */
  readonly files: Pick<PrepareOptions, 'job' | 'profile' | 'intake' | 'resin' | 'pitResin'>;
}

export type Planned =
  | { readonly ok: true; readonly value: NextAttempt }
  /** Why there is none, and what to do. */
  | { readonly ok: false; readonly lines: readonly string[] };

const refused = (...lines: readonly string[]): Planned => ({ ok: false, lines });

export function nextAttempt(records: string, job: string, way: WayOn): Planned {
  const ids = attemptsIn(records, job);
  const read = ids.map((id) => ({ id, journal: loadRepairJournal(pathOf(records, id)) }));
  const journals = read.flatMap(({ id, journal }) =>
    journal.ok ? [{ id, contents: journal.value }] : [],
  );
  const last = journals.at(-1);
  if (last === undefined || journals.length < read.length) {
    return refused(`${join(records, job)}: no journals of a job that can be read`);
  }
  const changed = journals.find(({ contents }) => contents.intact === false);
  if (changed !== undefined) {
    return refused(`${pathOf(records, changed.id)} was changed: nothing can rest on it`);
  }
  if (last.contents.end.reason === 'completed') {
    return refused(`${job} came to its end; a further repair of it is a new job`);
  }
  const state = stateAtEnd(last.contents, pathOf(records, last.id));
  if (typeof state === 'string') return refused(state);
  if (state.why?.mustEnd === true) {
    return refused(`${job}: ${state.why.record} Nothing may go on from it; close it.`);
  }
  const { procedure: walk, entry: before } = state;
  const entry = way === 'cure-only' ? cureOnlyEntry(walk, before) : goOnEntry(walk, before);
  if (entry === null && way === 'cure-only') {
    return refused(`${job} ended before resin was pressed in: there is nothing to cure`);
  }
  const first = journals[0] ?? last;
  const people = peopleOf(records, ids);
  if (people === null) {
    return refused(`${job}: its personal data were removed, so nobody knows whose job it is`);
  }
  return {
    ok: true,
    value: {
      job,
      number: ids.length + 1,
      how: entry === null ? 'anew' : way,
      entry,
      resinStood: entry !== null && isResinLiquid(walk, before),
      earlier: journals.map(({ id, contents }) => earlierOf(records, id, contents)),
      endedAt: endedAtOf(last.contents),
      files: filesOf(job, first.contents, people),
    },
  };
}

const pathOf = (records: string, id: string): string => join(records, id, JOURNAL_FILE);

/** The controller's state at the end of a journal, or why it is not known. */
function stateAtEnd(
  contents: JournalContents,
  file: string,
): string | (Pick<RepairState, 'procedure' | 'why'> & { readonly entry: Entry | undefined }) {
  const config = configOfHeader(contents.header, file);
  if (!config.ok) return `${file}: its settings are not accepted by this program`;
  const { differences, last } = replayJournal(REPAIR, config.value, contents);
  return differences.length > 0
    ? `${file}: this program decides differently from the one that recorded it; begin the job again from the start`
    : { ...last, entry: config.value.entry };
}

function earlierOf(records: string, id: string, contents: JournalContents): EarlierAttempt {
  const report = reportDataOf(contents, budgetLinesOf(contents));
  return {
    record: id,
    number: attemptOfId(id).number,
    journalSha256: fileSha256(pathOf(records, id)),
    startedAt: report.startedAt,
    endedAt: endedAtOf(contents),
    end: report.end,
    phase: report.phases.at(-1)?.phase ?? 'self-test',
    claims: report.claims.map(({ id: claim, portion, field, state, objections }) => ({
      id: claim,
      portion,
      ...(field != null && { field }),
      state,
      objections: objections.map((one) => ({
        id: one.id,
        lines: [...one.lines],
        said: [...one.said],
      })),
    })),
    doses: [...report.doses],
    cycles: [...report.cycles],
  };
}

const lastS = ({ ticks }: JournalContents): number => ticks.at(-1)?.frame.timeS ?? 0;

const endedAtOf = (contents: JournalContents): string =>
  laterBy(contents.header.startedAt, lastS(contents));

// biome-ignore lint/style/noRestrictedGlobals: it holds a record's time and reads no clock.
const dateAt = (time: string | number): Date => new Date(time);

/** ISO 8601. */
export const laterBy = (time: string, s: number): string =>
  dateAt(dateAt(time).getTime() + Math.round(s * 1000)).toISOString();

function peopleOf(
  records: string,
  ids: readonly string[],
): Readonly<Record<string, string>> | null {
  const found = ids
    .map((id) => readPersonal(jobPersonalPath(join(records, id))))
    .findLast(({ state }) => state === 'there');
  if (found?.state !== 'there') return null;
  const { overrideBy: _, ...people } = found.personal.fields as { readonly overrideBy?: string };
  return people;
}

function filesOf(
  job: string,
  { header }: JournalContents,
  people: Readonly<Record<string, string>>,
): NextAttempt['files'] {
  const { inputs, about } = header;
  const from = (what: string, content: unknown): BuiltIn => ({
    name: `${what} of ${job}`,
    content,
  });
  const sheet = valueAt(about, ['intake', 'sheet']);
  const [resin, pitResin] = ['resin', 'pitResin'].map((name) => valueAt(about, [name]));
  return {
    job: from('job sheet', { ...(inputs.job as object), ...people }),
    profile: from('profile', inputs.profile),
    ...(sheet != null && { intake: from('intake', sheet) }),
    ...(resin != null && { resin: from('resin', resin) }),
    ...(pitResin != null && { pitResin: from('pit resin', pitResin) }),
  };
}

/** For the header of its journal. */
export const attemptFactsOf = (
  { job, number, how, entry, resinStood, earlier, endedAt }: NextAttempt,
  startedAt: string,
): AttemptFacts => ({
  job,
  number,
  how,
  entry,
  apartS: Math.max(0, (dateAt(startedAt).getTime() - dateAt(endedAt).getTime()) / 1000),
  resinStood,
  earlier: [...earlier],
});
