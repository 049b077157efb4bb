/**
 * Steps one alarm through the states of ISA-18.2 (IEC 62682): normal, unacknowledged, acknowledged,
 * returned unacknowledged, latched. The condition acts for as long as it stands, regardless of
 * acknowledgement; a latching alarm also acts until it is reset. The guard decides which outputs
 * that stops, the controller what it does to the batch.
 */
import type { AlarmState } from '../core/events.ts';
import { type Phrase, worded } from '../core/phrases.ts';
import type { AlarmContext, AlarmRow } from './alarm-row.ts';
import type { AlarmSettings } from './alarm-settings.ts';
import { amountOf } from './scales.ts';

export interface AlarmRecord {
  readonly state: AlarmState;
  /** The condition has stood for its delay and has not returned past its deadband. */
  readonly active: boolean;
  /** Time since which the value has been past its limit; null while it is not. */
  readonly pastLimitSinceS: number | null;
  readonly finding: AlarmFinding | null;
}

/** An alarm's cause: as data for the display, and in the words of the record. */
export interface AlarmFinding {
  readonly expected: Phrase;
  readonly seen: Phrase;
  /** What was seen lies so near the limit that it repeats it. */
  readonly atLimit: boolean;
  readonly cause: string;
}

export const QUIET: AlarmRecord = {
  state: 'normal',
  active: false,
  pastLimitSinceS: null,
  finding: null,
};

/** What a person did to this alarm in this tick. */
export type AlarmHandling = 'acknowledge' | 'reset' | null;

/** State after a tick, by previous state, condition and handling. */
export function nextAlarmState(
  state: AlarmState,
  active: boolean,
  latching: boolean,
  handling: AlarmHandling,
): AlarmState {
  const rest: AlarmState = latching ? 'latched' : 'normal';
  switch (state) {
    case 'normal':
      return active ? 'unacknowledged' : 'normal';
    case 'unacknowledged':
      if (handling === 'acknowledge') return active ? 'acknowledged' : rest;
      return active ? 'unacknowledged' : 'returned-unacknowledged';
    case 'acknowledged':
      return active ? 'acknowledged' : rest;
    case 'returned-unacknowledged':
      if (active) return 'unacknowledged';
      return handling === 'acknowledge' ? rest : 'returned-unacknowledged';
    case 'latched':
      if (active) return 'unacknowledged';
      return handling === 'reset' ? 'normal' : 'latched';
  }
}

/** Whether this alarm still forces its action: its condition stands, or it latched. */
export function inForce(row: AlarmRow, { active, state }: AlarmRecord): boolean {
  return active || (row.latching && state !== 'normal');
}

export function stepAlarm(
  row: AlarmRow,
  settings: AlarmSettings,
  record: AlarmRecord,
  context: AlarmContext,
  handling: AlarmHandling,
): AlarmRecord {
  const past = isPastLimit(row, settings, record, context);
  // True for most rows in most ticks.
  if (record === QUIET && !past) return record;
  const { timeS } = context.reading;
  const pastLimitSinceS = past ? (record.pastLimitSinceS ?? timeS) : null;
  const active = pastLimitSinceS !== null && timeS - pastLimitSinceS >= settings.delayS;
  const state = nextAlarmState(record.state, active, row.latching, handling);
  if (active && !record.active) {
    return { state, active, pastLimitSinceS, finding: findingOf(row, settings, context) };
  }
  const same =
    state === record.state &&
    active === record.active &&
    pastLimitSinceS === record.pastLimitSinceS;
  return same ? record : { ...record, state, active, pastLimitSinceS };
}

/** Compares with limit and deadband; a missing value leaves an active alarm active. */
function isPastLimit(
  row: AlarmRow,
  settings: AlarmSettings,
  record: AlarmRecord,
  context: AlarmContext,
): boolean {
  if (!row.armed(context)) return false;
  const seenSI = row.seen(context);
  if (seenSI === null || Number.isNaN(seenSI)) return record.active;
  const limitSI = limitInForce(row, settings, context);
  const excess = row.trips === 'above' ? seenSI - limitSI : limitSI - seenSI;
  return record.active ? excess > -settings.deadbandSI : excess > 0;
}

function limitInForce(row: AlarmRow, { limitSI }: AlarmSettings, context: AlarmContext): number {
  return row.limitSI?.(context, limitSI) ?? limitSI;
}

/** Share of the limit within which a value repeats it, for an alarm without a deadband. */
const REPEATS_WITHIN = 0.05;

function findingOf(row: AlarmRow, settings: AlarmSettings, context: AlarmContext): AlarmFinding {
  const limitSI = limitInForce(row, settings, context);
  const seenSI = row.seen(context) ?? Number.NaN;
  const limit: Phrase = {
    say: row.trips === 'above' ? 'at-most' : 'at-least',
    with: { amount: amountOf(limitSI, row.quantity) },
  };
  const own = typeof row.expected === 'function' ? row.expected(context) : row.expected;
  const expected = own ?? limit;
  const seen = row.seenText?.(context) ?? amountOf(seenSI, row.quantity);
  const cause = `Expected ${worded(expected)}, seen ${worded(seen)}`;
  const near = settings.deadbandSI > 0 ? settings.deadbandSI : REPEATS_WITHIN * Math.abs(limitSI);
  const isOwn = own !== undefined || row.seenText !== undefined;
  return { expected, seen, atLimit: !isOwn && Math.abs(seenSI - limitSI) <= near, cause };
}
