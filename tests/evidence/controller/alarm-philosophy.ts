import type { AlarmState } from '../../../src/core/events.ts';
import { alarmSettingsSchema } from '../../../src/safety/alarm-settings.ts';
import { type AlarmHandling, nextAlarmState } from '../../../src/safety/alarm-states.ts';
import { ALARM_TABLE } from '../../../src/safety/alarm-table.ts';
import { ALL_QUIET, stepAlarms } from '../../../src/safety/alarms.ts';
import { measured } from '../../frames.ts';
import { QUIET_CONTEXT } from '../../safety/quiet-context.ts';
import type { CheckGroup, CheckRow } from '../check.ts';

const STATES = 'ISA-18.2 / IEC 62682 alarm states, as an open alarm library documents them';

const goes = (
  from: AlarmState,
  active: boolean,
  handling: AlarmHandling,
  to: AlarmState,
  latching = false,
): CheckRow => ({
  what: `${from}${latching ? ' (latching)' : ''}, condition ${active ? 'stands' : 'gone'}, ${handling ?? 'nobody acts'}: to ${to}`,
  actual: () => Number(nextAlarmState(from, active, latching, handling) === to),
  expected: 1,
  tolerance: 0,
  unit: '1 for yes',
  source: latching ? 'ISA-18.2, latched variants need a reset (from memory)' : STATES,
  obtained: latching ? 'from memory' : 'seen second-hand',
});

export const ALARM_TRANSITIONS: CheckGroup = {
  title: 'alarm states',
  rows: [
    goes('normal', true, null, 'unacknowledged'),
    goes('unacknowledged', true, 'acknowledge', 'acknowledged'),
    goes('unacknowledged', false, null, 'returned-unacknowledged'),
    goes('acknowledged', false, null, 'normal'),
    goes('returned-unacknowledged', false, 'acknowledge', 'normal'),
    goes('returned-unacknowledged', true, null, 'unacknowledged'),
    goes('acknowledged', false, null, 'latched', true),
    goes('latched', false, 'reset', 'normal', true),
  ],
};

const SETTINGS = alarmSettingsSchema.parse({});
const TICK_S = 0.05;

/** How often alarms come in ten minutes while this glass temperature swings, all acknowledged at once. */
function raisedInTenMinutes(glassK: (timeS: number) => number): number {
  let records = ALL_QUIET;
  let raised = 0;
  let latest: string | null = null;
  for (let tick = 0; tick < 600 / TICK_S; tick++) {
    const reading = {
      ...QUIET_CONTEXT.reading,
      timeS: tick * TICK_S,
      glassK: measured(glassK(tick * TICK_S)),
    };
    const stepped = stepAlarms(
      records,
      SETTINGS,
      { ...QUIET_CONTEXT, reading },
      { acknowledged: latest, reset: true },
      () => true,
    );
    records = stepped.records;
    latest = null;
    for (const event of stepped.events) {
      if (event.kind !== 'alarm' || event.to !== 'unacknowledged') continue;
      raised += 1;
      latest = event.alarm;
    }
  }
  return raised;
}

const swing = (amplitudeK: number) => (timeS: number) =>
  313.15 + amplitudeK * Math.sin((2 * Math.PI * timeS) / 20);

export const ALARM_LOAD: CheckGroup = {
  title: 'how often alarms come',
  rows: [
    {
      what: 'alarms in ten minutes of glass that swings 1.4 K about its limit every 20 s',
      actual: () => raisedInTenMinutes(swing(1.4)),
      expected: 1,
      tolerance: 0,
      unit: 'alarms',
      source: 'about 1 in 10 min is acceptable, and no chattering; ISA-18.2, seen second-hand',
      obtained: 'seen second-hand',
    },
    {
      what: 'alarms in ten minutes of glass that swings 4 K about its limit every 20 s',
      actual: () => raisedInTenMinutes(swing(4)),
      expected: 1,
      tolerance: 9,
      unit: 'alarms',
      source: 'more than 10 in 10 min is a flood; ISA-18.2, seen second-hand',
      obtained: 'seen second-hand',
      why: 'from the acceptable 1 to the edge of a flood',
      misses:
        'a value that truly passes the limit and its deadband every 20 s raises its alarm each time; the hold that comes with it takes the cause away in practice',
    },
    {
      what: 'share of alarms with high priority',
      actual: () =>
        (100 * ALARM_TABLE.filter(({ priority }) => priority === 'high').length) /
        ALARM_TABLE.length,
      expected: 5,
      tolerance: 5,
      unit: '%',
      source: '80 / 15 / 5 % low, medium, high; ISA-18.2 (from memory)',
      obtained: 'from memory',
      why: 'the source speaks of about 5 %',
      misses:
        'a third and more is high: the guidance is for the hundreds of alarms of a process plant, while most rows here are there because somebody or the pane may be hurt',
    },
  ],
};
