/**
 * The common part of `meniscus calibrate` and `meniscus care test`: checks everything before
 * anything moves, runs the procedure, keeps its result, and reports the outcome.
 */

import { join, relative } from 'node:path';
import type { CareBody } from '../../care/care-entry.ts';
import type { ProcedureName } from '../../core/guided-events.ts';
import { problemLine } from '../../core/settings.ts';
import { createHeader, type JournalHeader } from '../../journal/journal-format.ts';
import { GUIDED } from '../../procedure/guided/guided.ts';
import { guidedResultOf } from '../../procedure/guided/guided-result.ts';
import type { Guided } from '../../procedure/guided/guided-state.ts';
import { QUANTITIES } from '../../procedure/guided/quantities.ts';
import { fileSha256 } from '../../store/chain/file-sha256.ts';
import { carePath, JOURNAL_FILE } from '../../store/chain/paths.ts';
import { type BegunRecord, beginJournal, ranOn } from '../run/begin-record.ts';
import { SIMULATED_START } from '../run/model-session.ts';
import { newFolder } from '../run/new-folder.ts';
import { openSession } from '../run/open-session.ts';
import { type ProcedureEnd, runProcedure } from '../run/run-procedure.ts';
import type { Session } from '../run/session.ts';
import { speedWords } from '../run/speed-words.ts';
import { EXIT } from '../terminal/exit-codes.ts';
import { tellIndexMissing } from '../terminal/open-records.ts';
import { print, printError } from '../terminal/print.ts';
import { refuse } from '../terminal/refuse.ts';
import { openToWrite } from '../terminal/this-unit.ts';
import { guidedCrew } from './guided-crew.ts';
import { guidedLines } from './guided-lines.ts';
import { type GuidedOptions, QUANTITY_OF, unfitValue } from './guided-options.ts';
import { guidedShowing } from './guided-panel.ts';
import { careBodyOf, type DoneWhen, keepCareResult } from './guided-record.ts';
import { type GuidedAsked, type LoadedGuided, loadGuided } from './load-guided.ts';

export async function guidedCommand(
  options: GuidedOptions,
  asked: Omit<GuidedAsked, 'today'>,
): Promise<number> {
  const startedAt = options.port === undefined ? SIMULATED_START : new Date().toISOString();
  const loaded = loadGuided(options, { ...asked, today: startedAt.slice(0, 10) });
  if (!loaded.ok) return refuse(loaded.problems.map(problemLine));
  if (options.manual && !process.stdin.isTTY) {
    return refuse(['--manual needs a terminal to press keys in.']);
  }
  // A result that cannot be kept is detected beforehand, not after an hour's work.
  const records = openToWrite(options.records);
  if (!records.ok) return refuse(records.problems.map(problemLine));
  records.value.close();
  const { config, job, notes } = loaded.value;
  const opened = await openSession(options, job, guidedCrew(options, config));
  if (!opened.ok) return refuse(opened.lines);
  for (const note of notes) printError(`${note}\n`);
  tellIndexMissing();
  const { session } = opened;
  const name = newFolder(carePath(options.records), nameOf(config.procedure, session.startedAt));
  if (typeof name !== 'string') {
    await session.board.close();
    return refuse([problemLine(name)]);
  }
  const folder = join(carePath(options.records), name);
  const place = {
    records: options.records,
    id: relative(options.records, folder).replaceAll('\\', '/'),
  };
  const begun = beginJournal(place, () => headerOf(loaded.value, session));
  if (!begun.ok) {
    await session.board.close();
    return refuse(begun.problems.map(problemLine));
  }
  const started = performance.now();
  const end = await run(options, loaded.value, session, begun.value);
  const wallS = (performance.now() - started) / 1000;
  const code = keep(options, loaded.value, end, {
    at: endedAt(session.startedAt, end),
    seed: session.seed,
    journal: {
      file: relative(options.records, join(folder, JOURNAL_FILE)).replaceAll('\\', '/'),
      sha256: fileSha256(join(folder, JOURNAL_FILE)),
    },
  });
  if (onEmulated(options)) sayBeside(options, [speedWords(end.boardS, wallS, loaded.value.papers)]);
  return code;
}

const onEmulated = ({ board, port }: GuidedOptions): boolean =>
  board === 'emulated' && port === undefined;

/** On standard error where the output is data. */
const sayBeside = ({ json }: GuidedOptions, lines: readonly string[]): void =>
  (json ? printError : print)(`${lines.join('\n')}\n`);

/** Two results in the same second are distinguished by a number. */
function nameOf(procedure: ProcedureName, startedAt: string): string {
  const what = procedure === 'health' ? procedure : `calibration-${procedure}`;
  return `${what}-${startedAt.slice(0, 19).replaceAll(':', '')}`;
}

const headerOf = (
  { config, unit, figures, display }: LoadedGuided,
  session: Session,
): JournalHeader =>
  createHeader({
    ...ranOn(session),
    procedure: config.procedure,
    inputs: { unit, profile: null, job: null, extra: { ...session.extra, ...figures } },
    display,
  });

function run(
  { json }: GuidedOptions,
  { config, papers }: LoadedGuided,
  session: Session,
  record: BegunRecord,
): Promise<ProcedureEnd<Guided>> {
  const { procedure } = config;
  return runProcedure({
    procedure: GUIDED,
    config,
    session,
    record,
    keeps: () => null,
    numbers: {
      asked: ({ asksNumber }) => asksNumber,
      request: (value) => {
        if (procedure === 'health') return 'the procedure asks for no number';
        const valueSI = QUANTITIES[QUANTITY_OF[procedure]].toSI(value);
        return unfitValue(procedure, value) ?? { kind: 'enter', valueSI };
      },
    },
    showing: guidedShowing(config, session, papers),
    out: json ? process.stderr : process.stdout,
    err: process.stderr,
  });
}

const endedAt = (startedAt: string, { boardS }: ProcedureEnd<Guided>): string =>
  new Date(Date.parse(startedAt) + boardS * 1000).toISOString();

function keep(
  options: GuidedOptions,
  { config, care }: LoadedGuided,
  end: ProcedureEnd<Guided>,
  when: DoneWhen,
): number {
  const { reason, why, last } = end;
  const result = last === null ? null : guidedResultOf(config, last.procedure);
  const { records, by, json } = options;
  const say = (lines: readonly string[]): void => sayBeside(options, lines);
  if (reason !== 'completed' || result === null) {
    say(['', `Stopped (${reason}): ${why}`, 'Nothing was kept; the unit’s figures are unchanged.']);
    if (json) printOutcome({ reason, why, kept: false, body: null });
    return reason === 'completed' ? EXIT.fault : EXIT[reason];
  }
  const body = careBodyOf(result, config, care, when);
  if (!body.ok) {
    say([
      '',
      ...body.problems.map(problemLine),
      'The result does not fit into a record and was not kept.',
    ]);
    return EXIT.fault;
  }
  const kept = keepCareResult(records, body.value, when, by);
  const stored = kept.ok
    ? [`Kept as entry ${kept.entry.seq} of ${records}`, ...kept.notes]
    : [...kept.lines, 'NOT KEPT. The result was:', JSON.stringify(body.value)];
  say(['', ...guidedLines(result, body.value), ...stored]);
  if (json) printOutcome({ reason, why, kept: kept.ok, seq: seqOf(kept), body: body.value });
  return kept.ok && result.passed ? EXIT.completed : EXIT.fault;
}

const seqOf = (kept: ReturnType<typeof keepCareResult>): number | null =>
  kept.ok ? kept.entry.seq : null;

function printOutcome(outcome: {
  readonly reason: string;
  readonly why: string;
  readonly kept: boolean;
  readonly seq?: number | null;
  readonly body: CareBody | null;
}): void {
  print(`${JSON.stringify(outcome, null, 2)}\n`);
}
