import { expect, test } from 'vitest';
import type { AlarmContext } from '../../src/safety/alarm-row.ts';
import { alarmSettingsSchema } from '../../src/safety/alarm-settings.ts';
import { ALL_QUIET, stepAlarms } from '../../src/safety/alarms.ts';
import { QUIET_CONTEXT } from './quiet-context.ts';

const SETTINGS = alarmSettingsSchema.parse({});
const TICK_S = 0.05;

/** The alarms that come within 10 s of one heat load that does not change. */
function raisedBy(
  heating: Partial<AlarmContext['heating']>,
  change: Partial<AlarmContext> = {},
): readonly string[] {
  const context = {
    ...QUIET_CONTEXT,
    ...change,
    heating: { ...QUIET_CONTEXT.heating, ...heating },
  };
  const raised: string[] = [];
  let records = ALL_QUIET;
  for (let tick = 0; tick < 10 / TICK_S; tick++) {
    const reading = { ...context.reading, timeS: tick * TICK_S };
    const handled = { acknowledged: null, reset: false };
    const stepped = stepAlarms(records, SETTINGS, { ...context, reading }, handled, () => true);
    records = stepped.records;
    for (const event of stepped.events) {
      if (event.kind === 'alarm' && event.to === 'unacknowledged') raised.push(event.alarm);
    }
  }
  return raised;
}

test('near the limit is warned of by difference or by rate, whichever is nearer', () => {
  expect(raisedBy({ spotOverPaneK: 4.5, rateKPerS: 7.9 / 60 })).toEqual([]);
  expect(raisedBy({ spotOverPaneK: 4.6 })).toEqual(['heat-near-limit']);
  expect(raisedBy({ rateKPerS: 8.1 / 60 })).toEqual(['heat-near-limit']);
});

test('past a limit the alarm that holds speaks alone', () => {
  expect(raisedBy({ spotOverPaneK: 5.8 })).toEqual(['spot-hot']);
  expect(raisedBy({ rateKPerS: 10.1 / 60 })).toEqual(['heated-too-fast']);
});

test('a held job that cools is not warned of again, but is held by what is over its limit', () => {
  expect(raisedBy({ spotOverPaneK: 5 }, { batch: 'held' })).toEqual([]);
  expect(raisedBy({ spotOverPaneK: 5.8 }, { batch: 'held' })).toEqual(['spot-hot']);
});

test('cooling as fast is as bad as heating', () => {
  expect(raisedBy({ rateKPerS: -9.9 / 60 })).not.toContain('heated-too-fast');
  expect(raisedBy({ rateKPerS: -10.1 / 60 })).toContain('heated-too-fast');
});

test('nothing is said while nothing is watched', () => {
  expect(raisedBy({ spotOverPaneK: null, rateKPerS: null })).toEqual([]);
});
