/**
 * Turns a job's events into alarm rows: one row each time an alarm was raised, with when a person
 * acknowledged it, when its condition cleared, and when it returned to normal. The states are those
 * of ISA-18.2 (IEC 62682).
 */
import type { AlarmAction, AlarmPriority, AlarmState, Event } from '../core/events.ts';

export interface AlarmRow {
  readonly alarm: string;
  readonly action: AlarmAction;
  readonly priority: AlarmPriority;
  readonly raisedAtS: number;
  readonly acknowledgedAtS: number | null;
  /**
   * When the condition cleared; null where the record does not show it, or shows it only at the
   * end.
   */
  readonly returnedAtS: number | null;
  /** When the alarm returned to normal; null where it stood until the end of the record. */
  readonly clearedAtS: number | null;
  readonly cause: string;
  readonly remedy: string;
}

type Draft = { -readonly [K in keyof AlarmRow]: AlarmRow[K] };

export function alarmRowsOf(events: readonly Event[]): readonly AlarmRow[] {
  const rows: Draft[] = [];
  for (const event of events) {
    if (event.kind !== 'alarm') continue;
    const { alarm, action, priority, cause, remedy, timeS } = event;
    const open = rows.findLast((row) => row.alarm === alarm && row.clearedAtS === null);
    // A latched alarm whose condition returns counts as raised again: the cause may be a different
    // one.
    const rises = event.to === 'unacknowledged' && event.from !== 'returned-unacknowledged';
    if (open === undefined || rises) {
      const times = {
        raisedAtS: timeS,
        acknowledgedAtS: null,
        returnedAtS: null,
        clearedAtS: null,
      };
      rows.push({ alarm, action, priority, cause, remedy, ...times });
      if (open !== undefined) open.clearedAtS = timeS;
    } else {
      follow(open, event.from, event.to, timeS);
    }
  }
  return rows;
}

function follow(row: Draft, from: AlarmState, to: AlarmState, timeS: number): void {
  const wasUnseen = from === 'unacknowledged' || from === 'returned-unacknowledged';
  if (wasUnseen && (to === 'acknowledged' || to === 'latched' || to === 'normal')) {
    row.acknowledgedAtS ??= timeS;
  }
  // The alarm was raised again before anyone acknowledged it, so the condition stands once more.
  if (to === 'unacknowledged') row.returnedAtS = null;
  if (to === 'returned-unacknowledged' || to === 'latched' || to === 'normal') {
    row.returnedAtS ??= timeS;
  }
  if (to === 'normal') row.clearedAtS = timeS;
}
