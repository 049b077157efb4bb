import { describe, expect, test } from 'vitest';
import type { CareBody } from '../../src/care/care-entry.ts';
import type { CareFacts } from '../../src/care/care-records.ts';
import { type CareSettings, careSettingsSchema } from '../../src/care/care-settings.ts';
import { dueItems } from '../../src/care/due.ts';
import type { CareItem, DueItem } from '../../src/care/due-item.ts';
import {
  CARE,
  CARE_FILE,
  facts,
  healthTest,
  irradianceCalibration,
  lampReading,
  logged,
  pressureCalibration,
  repairs,
  service,
  temperatureCalibration,
} from './records.ts';

function item(name: CareItem, given: CareFacts, settings: CareSettings = CARE): DueItem {
  const found = dueItems(given, settings).find((one) => one.item === name);
  if (found === undefined) throw new Error(name);
  return found;
}

const stateAt = (name: CareItem, today: string, ...bodies: readonly CareBody[]) =>
  item(name, facts({ today, care: logged(...bodies) })).state;

describe('a calibration', () => {
  const calibrations = {
    'calibration-pressure': pressureCalibration('2024-01-01', { validUntil: '2024-12-01' }),
    'calibration-irradiance': irradianceCalibration('2024-01-01', '2024-12-01'),
    'calibration-temperature': temperatureCalibration('2024-01-01', '2024-12-01'),
  } as const;

  test.each(Object.entries(calibrations))(
    '%s is told ahead, holds on its last day, and blocks after it',
    (name, body) => {
      const on = (today: string) => stateAt(name as CareItem, today, body);
      expect(on('2024-10-31')).toBe('in-order');
      expect(on('2024-11-01')).toBe('due-soon');
      expect(on('2024-12-01')).toBe('due-soon');
      expect(on('2024-12-02')).toBe('blocked');
    },
  );

  test('is not lengthened by care.json, but shortened', () => {
    const long = pressureCalibration('2024-01-01', { validUntil: '2030-01-01' });
    // 365 days from it: 2024 is a leap year.
    expect(stateAt('calibration-pressure', '2024-12-31', long)).toBe('due-soon');
    expect(stateAt('calibration-pressure', '2025-01-01', long)).toBe('blocked');
  });

  test('that never was only warns where the rule or a demo unit says so, and else blocks', () => {
    const block = careSettingsSchema.parse({ ...CARE_FILE, withoutCalibration: 'block' });
    const none = facts({});
    expect(item('calibration-pressure', none).state).toBe('overdue-warn');
    expect(item('calibration-pressure', none).words).toContain(
      'figures of the unit file, not calibrated',
    );
    expect(item('calibration-pressure', none, block).state).toBe('blocked');
    expect(item('calibration-pressure', { ...none, demo: true }, block).state).toBe('overdue-warn');
  });

  test('that did not pass is told and blocks, or only warns where the rule says so, until one passes', () => {
    const care = logged(
      pressureCalibration('2024-01-01'),
      pressureCalibration('2024-02-01', { passed: false }),
    );
    const found = item('calibration-pressure', facts({ care }));
    expect(found).toMatchObject({ state: 'blocked', since: '2024-01-01' });
    expect(found.words).toContain('the attempt of 2024-02-01 did not pass');
    const warn = careSettingsSchema.parse({ ...CARE_FILE, afterFailedCalibration: 'warn' });
    expect(item('calibration-pressure', facts({ care }), warn).state).toBe('overdue-warn');
    const again = [...care, ...logged(pressureCalibration('2024-02-02'))];
    expect(item('calibration-pressure', facts({ care: again })).state).toBe('in-order');
  });

  test('of a sensor that was changed blocks until the new one is calibrated', () => {
    const old = pressureCalibration('2024-01-01');
    const changed = service('2024-03-01', 'pressure-sensor');
    expect(stateAt('calibration-pressure', '2024-06-01', old, changed)).toBe('blocked');
    expect(
      stateAt(
        'calibration-pressure',
        '2024-06-01',
        old,
        changed,
        pressureCalibration('2024-03-01'),
      ),
    ).toBe('in-order');
  });

  test('made from other figures than the unit file states blocks, and warns on a demo unit', () => {
    const other = { zeroPa: 0, fullPa: 250_000 };
    const care = logged(pressureCalibration('2024-01-01', { before: other }));
    expect(item('calibration-pressure', facts({ care })).state).toBe('blocked');
    expect(item('calibration-pressure', facts({ care, demo: true })).state).toBe('overdue-warn');
  });
});

describe('lamp output', () => {
  const { referenceWPerM2, warnRatio, blockRatio } = CARE.lamp;
  const at = (ratio: number) =>
    stateAt('lamp-output', '2024-06-01', lampReading('2024-05-01', ratio * referenceWPerM2));

  test('warns below one share of a new lamp and blocks below another', () => {
    expect(at(warnRatio)).toBe('in-order');
    expect(at(warnRatio - 1e-6)).toBe('due-soon');
    expect(at(blockRatio)).toBe('due-soon');
    expect(at(blockRatio - 1e-6)).toBe('blocked');
  });

  test('is the last that was measured, in a cure or against a radiometer', () => {
    const weak = lampReading('2024-05-01', 0.5 * referenceWPerM2);
    const good = { irradianceWPerM2: 0.9 * referenceWPerM2 };
    expect(
      item('lamp-output', facts({ care: logged(weak), repairs: repairs(1, '2024-05-02', good) }))
        .state,
    ).toBe('in-order');
    const measured = irradianceCalibration('2024-05-03', '2025-01-01', 180);
    expect(stateAt('lamp-output', '2024-06-01', weak, measured)).toBe('in-order');
    expect(stateAt('lamp-output', '2024-06-01', measured, { ...weak, on: '2024-05-04' })).toBe(
      'blocked',
    );
  });

  test('of a lamp before it says nothing of a new one', () => {
    const weak = lampReading('2024-05-01', 0.5 * referenceWPerM2);
    const found = item('lamp-output', facts({ care: logged(weak, service('2024-05-02', 'lamp')) }));
    expect(found).toMatchObject({ state: 'due-soon', words: 'not measured yet' });
  });
});

describe('lamp hours', () => {
  const withHours = (hours: number, settings = CARE) =>
    item(
      'lamp-hours',
      facts({ repairs: repairs(1, '2024-05-01', { lampOnS: hours * 3600 }) }),
      settings,
    ).state;

  test('are told ahead and when they are over; they block only where a rule says so', () => {
    expect(withHours(1899.9)).toBe('in-order');
    expect(withHours(1900)).toBe('due-soon');
    expect(withHours(2000)).toBe('due-soon');
    expect(withHours(2000.1)).toBe('overdue-warn');
    expect(withHours(1e5)).toBe('overdue-warn');
    const blocking = careSettingsSchema.parse({
      ...CARE_FILE,
      lamp: { ...CARE_FILE.lamp, blockAfterH: 500 },
    });
    expect(withHours(2500, blocking)).toBe('overdue-warn');
    expect(withHours(2500.1, blocking)).toBe('blocked');
  });

  test('that a person has stated replace what was counted before them', () => {
    const care = logged(lampReading('2024-05-01', 190, 1950));
    const before = repairs(1, '2024-04-01', { lampOnS: 1e6 });
    const after = repairs(1, '2024-05-02', { lampOnS: 3600 });
    expect(item('lamp-hours', facts({ care, repairs: [...before, ...after] })).words).toBe(
      '1951.0 of 2000 h',
    );
  });
});

describe.each([
  [
    'lamp-window',
    'cures',
    CARE.lampWindow.everyCures,
    CARE.lampWindow.warnAheadCures,
    CARE.lampWindow.blockAfterCures,
  ],
  [
    'o-ring',
    'repairs',
    CARE.oRing.everyRepairs,
    CARE.oRing.warnAheadRepairs,
    CARE.oRing.blockAfterRepairs,
  ],
] as const)('%s, counted in %s', (name, _, every, warnAhead, blockAfter) => {
  const stateAfter = (count: number) =>
    item(
      name,
      facts({ care: logged(service('2024-05-01', name)), repairs: repairs(count, '2024-05-02') }),
    ).state;

  test('is told ahead, told when it is over, and blocks a while after', () => {
    expect(stateAfter(every - warnAhead - 1)).toBe('in-order');
    expect(stateAfter(every - warnAhead)).toBe('due-soon');
    expect(stateAfter(every)).toBe('due-soon');
    expect(stateAfter(every + 1)).toBe('overdue-warn');
    expect(stateAfter(every + (blockAfter ?? 0))).toBe('overdue-warn');
    expect(stateAfter(every + (blockAfter ?? 0) + 1)).toBe('blocked');
  });

  test('begins anew when it is logged', () => {
    const care = logged(service('2024-05-03', name));
    const found = item(name, facts({ care, repairs: repairs(500, '2024-05-02') }));
    expect(found.state).toBe('in-order');
  });
});

describe('what was used on the day of a piece of service', () => {
  const used = (loggedOn: string, seq: number) =>
    item(
      'o-ring',
      facts({
        care: [{ seq, loggedOn, body: service('2024-05-01', 'o-ring') }],
        repairs: repairs(3, '2024-05-01', { seq: 10 }),
      }),
    ).words;

  test('counts by the order in the record', () => {
    expect(used('2024-05-01', 9)).toContain('3 of');
    expect(used('2024-05-01', 20)).toContain('0 of');
  });

  test('counts all where the service was written down days later', () => {
    expect(used('2024-05-07', 20)).toContain('3 of');
  });
});

describe('cover films', () => {
  const left = (used: number, count: number | null = 100) =>
    item(
      'film-roll',
      facts({
        care: logged(service('2024-05-01', 'film-roll', count)),
        repairs: repairs(used, '2024-05-02'),
      }),
    );

  test('are told when few are left, and block when none is', () => {
    expect(left(89).state).toBe('in-order');
    expect(left(90).state).toBe('due-soon');
    expect(left(99).state).toBe('due-soon');
    expect(left(100)).toMatchObject({
      state: 'blocked',
      words: expect.stringContaining('0 of 100'),
    });
    expect(left(20, 30).words).toContain('10 of 30 films left');
  });

  test('are not counted where no roll was logged', () => {
    expect(item('film-roll', facts({ repairs: repairs(500, '2024-05-02') })).state).toBe(
      'due-soon',
    );
  });
});

describe('seal and pump test', () => {
  const at = (today: string, passed = true) =>
    stateAt('health', today, healthTest('2024-05-01', { passed }));

  test('is told ahead, told when it is over, and blocks a while after', () => {
    expect(at('2024-05-25')).toBe('in-order');
    expect(at('2024-05-26')).toBe('due-soon');
    expect(at('2024-05-31')).toBe('due-soon');
    expect(at('2024-06-01')).toBe('overdue-warn');
    expect(at('2024-06-30')).toBe('overdue-warn');
    expect(at('2024-07-01')).toBe('blocked');
  });

  test('blocks when it did not pass, until one passes', () => {
    expect(at('2024-05-02', false)).toBe('blocked');
    const again = [healthTest('2024-05-01', { passed: false }), healthTest('2024-05-01')];
    expect(stateAt('health', '2024-05-02', ...again)).toBe('in-order');
  });
});

test('cleaning is told ahead and when it is over, and never blocks', () => {
  const at = (today: string) => stateAt('cleaning', today, service('2024-05-01', 'cleaning'));
  expect(at('2024-05-06')).toBe('in-order');
  expect(at('2024-05-07')).toBe('due-soon');
  expect(at('2024-05-08')).toBe('due-soon');
  expect(at('2024-05-09')).toBe('overdue-warn');
  expect(at('2034-05-09')).toBe('overdue-warn');
});

test('what is dated after today has not happened yet', () => {
  const care = logged(service('2024-06-02', 'cleaning'), pressureCalibration('2024-06-02'));
  const found = dueItems(facts({ care, today: '2024-06-01' }), CARE);
  expect(found.find((one) => one.item === 'cleaning')?.words).toBe('never logged');
  expect(found.find((one) => one.item === 'calibration-pressure')?.since).toBeNull();
});

test('every item that is not in order says what to do', () => {
  const worn = facts({ repairs: repairs(500, '2024-05-02', { irradianceWPerM2: 50 }) });
  const items = dueItems(worn, CARE);
  expect(items.some(({ state }) => state === 'in-order')).toBe(true);
  expect(items.some(({ state }) => state !== 'in-order')).toBe(true);
  for (const { state, whatToDo } of items) {
    expect(whatToDo === '').toBe(state === 'in-order');
  }
});
