/**
 * The job's timeline: phases with their times, holds, values measured once, and cycles with what
 * they reached. A phase's row ends where the next phase begins or where the job stopped running, so
 * that time spent held never counts as dwell.
 */

import type { Event, HoldReason, Snapshot } from '../core/events.ts';
import type { JobMeasurement, Measurement, Portion } from '../core/measurements.ts';
import { type PhaseId, partOf, STEP_NUMBERS } from '../core/phases.ts';

export interface PhaseRow {
  /** The step number shown on the display. */
  readonly step: string;
  readonly phase: PhaseId;
  /** 0 before the first cycle. */
  readonly cycle: number;
  readonly fromS: number;
  readonly toS: number;
}

export interface HoldRow {
  readonly fromS: number;
  readonly toS: number;
  readonly why: string;
  /** What the person who held it gave as reasons, in order. */
  readonly reasons: readonly HoldReason[];
  /** Whether the job continued afterwards. */
  readonly resumed: boolean;
}

export interface CycleRow {
  readonly cycle: number;
  /** At the end of the last vacuum dwell; null where none was completed. */
  readonly vacuumReachedPa: number | null;
  readonly lowestPa: number | null;
  /** Time of the dwell and of the question about bubbles, during which the vacuum is held. */
  readonly vacuumHeldS: number;
  /** At the end of the last pressure dwell; null where none was completed. */
  readonly pressureReachedPa: number | null;
  readonly highestPa: number | null;
  readonly pressureHeldS: number;
}

export interface MeasuredRow {
  readonly atS: number;
  readonly name: Measurement;
  /** What it is of; null where that does not apply, and where fill and pit are cured together. */
  readonly portion: Portion | null;
  /** Over which the lamp stood, from the second on. */
  readonly field?: number;
  /** In the unit that the name ends in. */
  readonly value: number;
}

export function measuredRowsOf(events: readonly Event[]): readonly MeasuredRow[] {
  let field = 1;
  return events.flatMap((event) => {
    if (event.kind === 'moved' && event.what === 'lamp') field = event.to;
    if (event.kind !== 'measured') return [];
    const { timeS: atS, name, portion, value } = event;
    return [{ atS, name, portion, value, ...(field > 1 && { field }) }];
  });
}

/** The last value of this name and portion, or null where none was measured. */
export const lastMeasured = (
  rows: readonly MeasuredRow[],
  name: Measurement,
  portion: Portion | null = null,
): number | null =>
  rows.findLast((row) => row.name === name && row.portion === portion)?.value ?? null;

/** What was measured while the lamp stood over this field. */
export const ofField = (rows: readonly MeasuredRow[], number: number): readonly MeasuredRow[] =>
  rows.filter(({ field = 1 }) => field === number);

export function phaseRowsOf(events: readonly Event[], lastS: number): readonly PhaseRow[] {
  return events.flatMap((event, index) => {
    if (event.kind !== 'phase') return [];
    const { phase, cycle, timeS: fromS } = event;
    const next = events
      .slice(index + 1)
      .find(
        (later) => later.kind === 'phase' || (later.kind === 'batch' && later.from === 'running'),
      );
    return [{ step: STEP_NUMBERS[phase], phase, cycle, fromS, toS: next?.timeS ?? lastS }];
  });
}

export function holdRowsOf(events: readonly Event[], lastS: number): readonly HoldRow[] {
  return events.flatMap((event, index) => {
    if (event.kind !== 'batch' || event.to !== 'holding' || event.from === 'restarting') return [];
    const since = events.slice(index + 1);
    const end = since.findIndex(
      (later) => later.kind === 'batch' && ['running', 'stopping', 'aborting'].includes(later.to),
    );
    const out = since[end];
    const reasons = (end < 0 ? since : since.slice(0, end)).flatMap((later) =>
      later.kind === 'hold-reason' ? [later.reason] : [],
    );
    const resumed = out?.kind === 'batch' && out.to === 'running';
    return [{ fromS: event.timeS, toS: out?.timeS ?? lastS, why: event.why, reasons, resumed }];
  });
}

export function cycleRowsOf(
  events: readonly Event[],
  phases: readonly PhaseRow[],
  snapshots: readonly Snapshot[],
): readonly CycleRow[] {
  const inCycles = phases.filter(({ cycle, phase }) => cycle > 0 && partOf(phase) === 'cycles');
  const numbers = [...new Set(inCycles.map(({ cycle }) => cycle))];
  return numbers.map((cycle) => {
    const own = inCycles.filter((row) => row.cycle === cycle);
    const fromS = own[0]?.fromS ?? 0;
    const toS = own.at(-1)?.toS ?? 0;
    const pressuresPa = snapshots.flatMap(({ timeS, pressurePa }) =>
      pressurePa !== null && timeS >= fromS && timeS <= toS ? [pressurePa] : [],
    );
    const reached = (name: JobMeasurement): number | null => reachedIn(events, name, fromS, toS);
    return {
      cycle,
      vacuumReachedPa: reached('vacuumReachedPa'),
      lowestPa: extreme(pressuresPa, Math.min),
      vacuumHeldS: heldS(own, ['vacuum-dwell', 'ask-bubbles']),
      pressureReachedPa: reached('pressureReachedPa'),
      highestPa: extreme(pressuresPa, Math.max),
      pressureHeldS: heldS(own, ['pressure-dwell']),
    };
  });
}

function reachedIn(
  events: readonly Event[],
  name: JobMeasurement,
  fromS: number,
  toS: number,
): number | null {
  const found = events.findLast(
    (event) =>
      event.kind === 'measured' &&
      event.name === name &&
      event.timeS >= fromS &&
      event.timeS <= toS,
  );
  return found?.kind === 'measured' ? found.value : null;
}

const heldS = (rows: readonly PhaseRow[], phases: readonly PhaseId[]): number =>
  rows
    .filter(({ phase }) => phases.includes(phase))
    .reduce((sum, { fromS, toS }) => sum + toS - fromS, 0);

/** The lowest or highest of the values, or null where there are none. */
export const extreme = (
  values: readonly number[],
  pick: (a: number, b: number) => number,
): number | null =>
  values.reduce<number | null>((best, value) => (best === null ? value : pick(best, value)), null);
