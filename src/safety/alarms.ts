/**
 * All alarms together: steps each row, reports what changed, and selects the alarm that a person
 * sees first. The controller decides the effect on the batch.
 */
import type { AlarmAction, UnstampedEvent } from '../core/events.ts';
import type { AlarmContext, AlarmRow } from './alarm-row.ts';
import type { AlarmSettings } from './alarm-settings.ts';
import { type AlarmHandling, type AlarmRecord, inForce, QUIET, stepAlarm } from './alarm-states.ts';
import { ALARM_TABLE } from './alarm-table.ts';

/** One record for each row of the table, in order. */
export type AlarmRecords = readonly AlarmRecord[];

export const ALL_QUIET: AlarmRecords = ALARM_TABLE.map(() => QUIET);

export interface Handled {
  /** The alarm that a person acknowledged, if any. */
  readonly acknowledged: string | null;
  readonly reset: boolean;
}

export function stepAlarms(
  records: AlarmRecords,
  settings: readonly AlarmSettings[],
  context: AlarmContext,
  handled: Handled,
  concerns: (row: AlarmRow) => boolean,
): { readonly records: AlarmRecords; readonly events: readonly UnstampedEvent[] } {
  const events: UnstampedEvent[] = [];
  // Most ticks change nothing: the same records are returned then.
  let next: AlarmRecord[] | null = null;
  for (let index = 0; index < ALARM_TABLE.length; index++) {
    const row = ALARM_TABLE[index] as AlarmRow;
    const record = records[index] ?? QUIET;
    const own = settings[index];
    if (own === undefined || !concerns(row)) continue;
    const after = stepAlarm(row, own, record, context, handlingOf(row, handled));
    if (after === record) continue;
    next ??= [...records];
    next[index] = after;
    if (after.state !== record.state) events.push(changeEvent(row, record, after));
  }
  return { records: next ?? records, events };
}

function handlingOf({ id }: AlarmRow, { acknowledged, reset }: Handled): AlarmHandling {
  if (acknowledged === id) return 'acknowledge';
  return reset ? 'reset' : null;
}

function changeEvent(row: AlarmRow, from: AlarmRecord, to: AlarmRecord): UnstampedEvent {
  const { id, action, priority, remedy } = row;
  return {
    kind: 'alarm',
    alarm: id,
    from: from.state,
    to: to.state,
    action,
    priority,
    cause: to.finding?.cause ?? '',
    remedy,
  };
}

export interface Standing {
  readonly row: AlarmRow;
  readonly record: AlarmRecord;
}

/** The unacknowledged alarm that a person must see first, or null. */
export function foremost(records: AlarmRecords): Standing | null {
  return first(
    records,
    (_, { state }) => state === 'unacknowledged' || state === 'returned-unacknowledged',
  );
}

/** The alarm of highest rank that forces this action now, or null. */
export function forcing(records: AlarmRecords, action: AlarmAction): Standing | null {
  return first(records, (row, record) => row.action === action && inForce(row, record));
}

const ACTION_RANK = { warn: 0, hold: 10, abort: 20 } as const;
const PRIORITY_RANK = { low: 0, medium: 1, high: 2 } as const;
const rank = ({ action, priority }: AlarmRow): number =>
  ACTION_RANK[action] + PRIORITY_RANK[priority];

function first(
  records: AlarmRecords,
  fits: (row: AlarmRow, record: AlarmRecord) => boolean,
): Standing | null {
  if (records === ALL_QUIET) return null;
  let found: Standing | null = null;
  for (let index = 0; index < ALARM_TABLE.length; index++) {
    const record = records[index] ?? QUIET;
    if (record === QUIET) continue;
    const row = ALARM_TABLE[index] as AlarmRow;
    if (fits(row, record) && (found === null || rank(row) > rank(found.row))) {
      found = { row, record };
    }
  }
  return found;
}
