/**
 * One case: a fault, or two, put into a sound job at a moment of it, and the job run to its end. It
 * says what found the fault and after how long, which limits were passed on the plant's truth, and
 * which claims of the record are shown and false.
 */
import { has } from '../../sim/faults/fault-effects.ts';
import type { Fault } from '../../sim/faults/faults.ts';
import type { Event } from '../../src/core/events.ts';
import { isSafe } from '../../src/core/frame.ts';
import {
  createHeader,
  type JournalEnd,
  type JournalHeader,
} from '../../src/journal/journal-format.ts';
import { type ReportData, reportDataOf } from '../../src/report/report-data.ts';
import { type FalseClaim, falseClaimsOf, shownIn } from './claims.ts';
import type { Job } from './jobs.ts';
import { type Breach, watchLimits } from './limits.ts';
import type { Moment } from './moments.ts';
import type { Begun, Row } from './row.ts';
import type { Log } from './run-job.ts';

export interface Case {
  /** Such as `pressure-stuck@together.evacuate.1`; two of them joined by `+` for a pair. */
  readonly id: string;
  readonly parts: readonly CasePart[];
}
export interface CasePart {
  readonly row: Row;
  readonly moment: Moment;
}

export interface CaseResult {
  readonly id: string;
  readonly rows: readonly string[];
  /** Alarm, finding, end or claim that told of the fault first; null where nothing did. */
  readonly foundBy: string | null;
  readonly foundAfterS: number | null;
  readonly end: string;
  readonly shown: readonly string[];
  readonly breaches: readonly Breach[];
  readonly falseClaims: readonly FalseClaim[];
}

export interface Run {
  readonly result: CaseResult;
  readonly log: Log;
  readonly report: ReportData;
  readonly faults: readonly Fault[];
  readonly header: JournalHeader;
  readonly end: JournalEnd;
}

/** A job that goes on for so long is left as it is: a sound one takes 330 to 420 s. */
const LONGEST_S = 1500;
/** One that stands safe for so long with the fault told is left: the person waits for help. */
const STANDS_S = 60;

export function runCase({ id, parts }: Case): Run {
  const first = parts.reduce((a, b) => (b.moment.atS < a.moment.atS ? b : a)).moment;
  const faults = parts.flatMap(({ row, moment }) => row.faults.map((f) => begun(f, moment.atS)));
  const limits = watchLimits();
  const truth = first.truth.copy();
  const running = first.at.fork(faults, (rig) => {
    limits.look(rig);
    truth.look(rig);
  });
  const fromEvent = running.log.events.length;
  let safeSinceS = Number.POSITIVE_INFINITY;
  let step = running.tick();
  for (;;) {
    truth.enter(step.snapshot);
    const { board, log } = running;
    const trueS = log.ticks.at(-1)?.frame.hostTimeS ?? 0;
    safeSinceS = isSafe(board.view().truth.acting) ? Math.min(safeSinceS, trueS) : trueS;
    if (step.events.some(({ kind }) => kind === 'batch' || kind === 'phase')) safeSinceS = trueS;
    if (step.state.ended || trueS > LONGEST_S || trueS - safeSinceS > STANDS_S) break;
    step = running.tick();
  }
  const { log, job } = running;
  const header = headerOf(job, running.board.identity);
  const end = endOf(log);
  const report = reportOf(log, header, end);
  const shorted = SHORTED.filter((kind) => has(kind, faults));
  const seen = { truth: truth.truth(), job, shorted };
  const found = foundIn(log.events.slice(fromEvent), report);
  return {
    log,
    report,
    faults,
    header,
    end,
    result: {
      id,
      rows: parts.map(({ row }) => row.id),
      foundBy: found?.by ?? null,
      foundAfterS: found === null ? null : Math.max(0, found.atS - first.atS),
      end: report.end.reason,
      shown: shownIn(report).map(({ claim }) => claim),
      breaches: limits.breaches(),
      falseClaims: falseClaimsOf(report, seen),
    },
  };
}

const SHORTED = [
  'over-pressure-shorted',
  'shield-read-shorted',
  'shield-cut-shorted',
  'stop-read-shorted',
  'stop-cut-shorted',
] as const;

function begun({ begins, ...fault }: Begun, atS: number): Fault {
  if (begins === 'at-power-up') return { ...fault, from: { atS: 0 } };
  return { ...fault, from: { atS: atS + (begins?.afterS ?? 0) } };
}

interface Found {
  readonly by: string;
  readonly atS: number;
}

/** The first thing that a sound job would not have had. */
function foundIn(events: readonly Event[], report: ReportData): Found | null {
  for (const event of events) {
    const { timeS: atS } = event;
    if (event.kind === 'alarm' && event.to === 'unacknowledged') return { by: event.alarm, atS };
    if (event.kind === 'seal-finding' && event.finding !== 'tight') {
      return { by: `seal test: ${event.finding}`, atS };
    }
    if (event.kind === 'batch' && (event.to === 'holding' || event.to === 'aborting')) {
      return { by: `held: ${event.why}`, atS };
    }
    if (event.kind === 'answer' && event.phase === 'ask-clear' && event.answer === 'no') {
      return { by: 'a person: not clear', atS };
    }
    if (event.kind === 'end' && event.reason !== 'completed') {
      return { by: `end: ${event.reason}`, atS };
    }
  }
  const { process } = report.verdict;
  const { lastsS: atS } = report;
  if (report.end.reason === 'interrupted') return { by: 'the job never ended', atS };
  if (report.outcome !== 'clear') return { by: `outcome: ${report.outcome}`, atS };
  return process === 'process within its limits' ? null : { by: process, atS };
}

const NO_HASH = '';

const headerOf = (job: Job, board: JournalHeader['board']): JournalHeader =>
  createHeader({
    version: 'campaign',
    board,
    seed: 1,
    startedAt: '2000-01-01T08:00:00.000Z',
    inputs: { ...job.settings.inputs, extra: {} },
  });

function endOf({ events }: Log): JournalEnd {
  const ended = events.findLast((event) => event.kind === 'end');
  if (ended?.kind !== 'end') {
    return { reason: 'interrupted', why: 'left as it stood', outcome: null };
  }
  const { reason, why, outcome } = ended;
  return { reason, why, outcome };
}

/** Straight from what happened: the same that a reader of its journal would give. */
function reportOf(log: Log, header: JournalHeader, end: JournalEnd): ReportData {
  const footer = { ...end, frames: log.ticks.length, events: log.events.length, sha256: NO_HASH };
  return reportDataOf(
    { ...log, header, end, footer, intact: true, torn: false, sha256: NO_HASH, remarks: [] },
    [],
  );
}
