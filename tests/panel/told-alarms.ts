/**
 * Every alarm of the table as raised by its own case, with its text on expected and seen values.
 */
import { shownAlarm } from '../../src/control/batch-step.ts';
import { CHANNEL_FAULTS, TRIPS } from '../../src/core/frame.ts';
import type { Phrase } from '../../src/core/phrases.ts';
import type { ShownAlarm } from '../../src/panel/page-words.ts';
import { alarmSettingsSchema } from '../../src/safety/alarm-settings.ts';
import { ALARM_TABLE } from '../../src/safety/alarm-table.ts';
import { ALL_QUIET, stepAlarms } from '../../src/safety/alarms.ts';
import { ALARM_CASES, type AlarmCase } from '../safety/alarm-cases.ts';
import { LIGHT_CASES } from '../safety/alarm-cases-light.ts';
import { QUIET_CONTEXT } from '../safety/quiet-context.ts';

const DEFAULTS = alarmSettingsSchema.parse({});

/** As the display is given it once its value has been there for its delay. */
export function raised({ id, armed, at, justOver }: AlarmCase, valueSI = justOver): ShownAlarm {
  const context = at({ ...QUIET_CONTEXT, ...armed }, valueSI);
  const row = ALARM_TABLE.find((candidate) => candidate.id === id);
  let records = ALL_QUIET;
  for (const timeS of [0, 100]) {
    const reading = { ...context.reading, timeS };
    const handled = { acknowledged: null, reset: false };
    records = stepAlarms(records, DEFAULTS, { ...context, reading }, handled, () => true).records;
  }
  const record = records[ALARM_TABLE.findIndex((candidate) => candidate.id === id)];
  if (row === undefined || record === undefined || record.finding === null) {
    throw new Error(`alarm ${id} was not raised by its case`);
  }
  return shownAlarm({ row, record });
}

/** The longest that the self-test and the board can say. */
const ALL_FOUND: readonly Phrase[] = [
  { say: 'light-sensor-says', with: { fault: { say: 'implausible' } } },
  { say: 'board-tripped', with: { trips: [{ say: 'trip-watchdog' }] } },
  { say: 'vacuum-of-no-use', with: { share: '63', most: '60' } },
];

const shown = (id: string, seen: Phrase): ShownAlarm => ({
  id,
  action: 'hold',
  expected: { say: 'all-checks-pass' },
  seen,
});

export const TOLD_ALARMS: readonly ShownAlarm[] = [
  ...[...ALARM_CASES, ...LIGHT_CASES].map((one) => raised(one)),
  ...ALL_FOUND.map((finding) =>
    shown('self-test', { say: 'found', with: { findings: [finding] } }),
  ),
  ...TRIPS.map((trip) =>
    shown('board-tripped', { say: 'tripped', with: { trips: [{ say: `trip-${trip}` }] } }),
  ),
  ...CHANNEL_FAULTS.map((fault) => shown('pressure-sensor', { say: fault })),
];
