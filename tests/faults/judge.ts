/**
 * What a job with a fault came to: what found the fault and after how long, which limits were
 * passed on the plant's truth, and which claims of the record are shown and false.
 */
import type { FaultKind } from '../../sim/faults/fault-kinds.ts';
import type { Fault } from '../../sim/faults/faults.ts';
import type { Event } from '../../src/core/events.ts';
import {
  createHeader,
  type JournalEnd,
  type JournalHeader,
} from '../../src/journal/journal-format.ts';
import { type Claim, shortTitleOf } from '../../src/report/claims/claim-table.ts';
import { ENGLISH_CLAIMS } from '../../src/report/language.ts';
import { type ReportData, reportDataOf } from '../../src/report/report-data.ts';
import { aboutJob, DAY } from './about.ts';
import { type FalseClaim, falseClaimsOf, shownIn } from './claims.ts';
import type { Job } from './jobs.ts';
import type { Breach } from './limits.ts';
import type { Row } from './row.ts';
import type { Log } from './run-job.ts';
import type { Truth } from './truth.ts';

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

/** A job that was run to its end, or until nothing more would come. */
export interface Course {
  readonly id: string;
  readonly rows: readonly Pick<Row, 'id'>[];
  readonly job: Job;
  readonly board: JournalHeader['board'];
  readonly log: Log;
  /** From this event and this time on the fault may have been told. */
  readonly fromEvent: number;
  readonly fromS: number;
  readonly faults: readonly Fault[];
  readonly breaches: readonly Breach[];
  readonly truth: Truth;
}

export interface Run {
  readonly result: CaseResult;
  readonly log: Log;
  readonly report: ReportData;
  readonly faults: readonly Fault[];
  readonly header: JournalHeader;
  readonly end: JournalEnd;
}

export function judge(course: Course): Run {
  const { id, rows, job, log, faults, breaches, truth } = course;
  const shorted = shortedIn(faults);
  const header = headerOf(job, course.board, !shorted.some((kind) => PROVED.has(kind)));
  const end = endOf(log);
  const report = reportOf(log, header, end);
  const found = foundIn(log.events.slice(course.fromEvent), report);
  return {
    log,
    report,
    faults,
    header,
    end,
    result: {
      id,
      rows: rows.map((row) => row.id),
      foundBy: found?.by ?? null,
      foundAfterS: found === null ? null : Math.max(0, found.atS - course.fromS),
      end: report.end.reason,
      shown: shownIn(report).map(({ claim }) => claim),
      breaches,
      falseClaims: falseClaimsOf(report, { truth, job, shorted }),
    },
  };
}

/** Contacts of which a proof would not have been passed. */
const PROVED: ReadonlySet<FaultKind> = new Set([
  'over-pressure-shorted',
  'shield-cut-shorted',
  'stop-read-shorted',
  'stop-cut-shorted',
]);

/** A shield that was seen open has shown its contact, until then. */
const shortedIn = (faults: readonly Fault[]): readonly FaultKind[] =>
  faults.flatMap(({ kind, from }) => {
    const atPowerUp = 'atS' in from && from.atS === 0;
    return PROVED.has(kind) || (kind === 'shield-read-shorted' && atPowerUp) ? [kind] : [];
  });

interface Found {
  readonly by: string;
  readonly atS: number;
}

/** The first thing that a sound job would not have had. */
function foundIn(events: readonly Event[], report: ReportData): Found | null {
  for (const event of events) {
    const { timeS: atS } = event;
    if (event.kind === 'alarm' && event.to === 'unacknowledged') return { by: event.alarm, atS };
    if (event.kind === 'phase' && event.phase === 'glass-gate') return { by: 'glass gate', atS };
    if (event.kind === 'seal-finding' && event.finding !== 'tight') {
      return { by: `seal test: ${event.finding}`, atS };
    }
    if (event.kind === 'batch' && (event.to === 'holding' || event.to === 'aborting')) {
      return { by: `held: ${event.why}`, atS };
    }
    if (event.kind === 'answer' && event.phase === 'ask-clear' && event.answer === 'no') {
      return { by: 'a person: not clear', atS };
    }
    if (event.kind === 'answer' && event.phase === 'scrape' && event.answer === 'no') {
      return { by: 'a person: soft', atS };
    }
    if (event.kind === 'end' && event.reason !== 'completed') {
      return { by: `end: ${event.reason}`, atS };
    }
  }
  const { lastsS: atS } = report;
  if (report.end.reason === 'interrupted') return { by: 'the job never ended', atS };
  if (report.outcome !== 'clear') return { by: `outcome: ${report.outcome}`, atS };
  const open = report.claims.find((claim) => claim.state !== 'shown' && !isUnproved(claim));
  if (open !== undefined) {
    return { by: `record: ${shortTitleOf(open, ENGLISH_CLAIMS)} ${open.state}`, atS };
  }
  const refused = events.find(({ kind }) => kind === 'refused');
  return refused === undefined ? null : { by: 'a press refused', atS: refused.timeS };
}

/** Left open because no proof is in force, and for nothing in this job. */
const isUnproved = ({ objections }: Claim): boolean =>
  objections.every(({ id }) => id === 'switches-unproved');

const NO_HASH = '';

const headerOf = (job: Job, board: JournalHeader['board'], proved: boolean): JournalHeader =>
  createHeader({
    version: 'campaign',
    board,
    seed: 1,
    startedAt: `${DAY}T08:00:00.000Z`,
    about: aboutJob(proved),
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
