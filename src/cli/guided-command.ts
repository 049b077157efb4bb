/**
 * What `meniscus calibrate` and `meniscus care test` have in common: checks everything before
 * anything moves, runs the procedure, keeps its result, and says what came of it.
 */
import type { CareBody } from '../care/care-entry.ts';
import { guidedResultOf } from '../guided-result.ts';
import { openRecords } from '../records/store/records-store.ts';
import { problemLine } from '../settings.ts';
import { EXIT } from './exit-codes.ts';
import { openGuidedBench } from './guided-bench.ts';
import { guidedLines } from './guided-lines.ts';
import type { GuidedOptions } from './guided-options.ts';
import { careBodyOf, type DoneWhen, keepCareResult } from './guided-record.ts';
import { type GuidedEnd, runGuided } from './guided-run.ts';
import { type GuidedAsked, type LoadedGuided, loadGuided } from './guided-settings-load.ts';
import { print, printError } from './print.ts';
import { tellIndexMissing } from './records-open.ts';
import { refuse } from './refuse.ts';
import { SIMULATED_START } from './simulated-bench.ts';

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
  // A result that cannot be kept is found out before, not after an hour's work.
  const records = openRecords(options.records);
  if (!records.ok) return refuse(records.problems.map(problemLine));
  records.value.close();
  const { config, job, notes } = loaded.value;
  const opened = await openGuidedBench(options, job, config);
  if (!opened.ok) return refuse(opened.lines);
  for (const note of notes) printError(`${note}\n`);
  tellIndexMissing();
  const { bench } = opened;
  const out = options.json ? process.stderr : process.stdout;
  const end = await runGuided(config, bench, out);
  return keep(options, loaded.value, end, { at: endedAt(bench.startedAt, end), seed: bench.seed });
}

const endedAt = (startedAt: string, { boardS }: GuidedEnd): string =>
  new Date(Date.parse(startedAt) + boardS * 1000).toISOString();

function keep(
  { records, by, json }: GuidedOptions,
  { config, care }: LoadedGuided,
  end: GuidedEnd,
  when: DoneWhen,
): number {
  const { reason, why, progress } = end;
  const result = progress === null ? null : guidedResultOf(config, progress);
  const say = (lines: readonly string[]): void =>
    (json ? printError : print)(`${lines.join('\n')}\n`);
  if (reason !== 'completed' || result === null) {
    say(['', `Stopped (${reason}): ${why}`, 'Nothing was kept; the unit goes on as before.']);
    if (json) printOutcome({ reason, why, kept: false, body: null });
    return reason === 'completed' ? EXIT.fault : EXIT[reason];
  }
  const body = careBodyOf(result, config, care, when);
  if (!body.ok) {
    say(['', ...body.problems.map(problemLine), 'The result does not fit a record: not kept.']);
    return EXIT.fault;
  }
  const kept = keepCareResult(records, body.value, when, by);
  const stored = kept.ok
    ? [`Kept as entry ${kept.entry.seq} of ${records}`, ...kept.notes]
    : [...kept.lines, 'NOT KEPT. This is what it was:', JSON.stringify(body.value)];
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
