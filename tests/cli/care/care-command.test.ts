import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import demo from '../../../src/app/defaults/care-demo.json' with { type: 'json' };
import {
  calibrateIrradiance,
  calibratePressure,
  calibrateTemperature,
} from '../../../src/care/calibration.ts';
import type { CalibrationResult, TwoPoints } from '../../../src/care/calibration-result.ts';
import { parseCareBody } from '../../../src/care/care-entry.ts';
import { careStateOf } from '../../../src/care/care-state.ts';
import { historyLines } from '../../../src/cli/care/care-history.ts';
import { parseDay } from '../../../src/cli/care/care-options.ts';
import { careScreen } from '../../../src/cli/care/care-screen.ts';
import {
  CARE,
  facts,
  healthTest,
  lampReading,
  logged,
  pressureCalibration,
  repairs,
  service,
  tFactor,
} from '../../care/records.ts';
import { runHere } from '../here.ts';
import { scratchFolder } from '../process.ts';

const folder = scratchFolder();
const care = (...args: string[]) => runHere(['care', ...args], folder);

test('the demo unit is in order on its day, and a year later the program ends with 2', async () => {
  const today = await care('--json');
  expect(today.code).toBe(0);
  expect(JSON.parse(today.out)).toMatchObject({ worst: 'in-order', today: '2000-01-01' });
  expect((await care('--today', '2001-01-01')).code).toBe(2);
});

test('no line of the screen or the history is wider than 80 columns', () => {
  const worn = facts({
    care: logged(
      pressureCalibration('2023-01-01', { validUntil: '2023-12-31' }),
      pressureCalibration('2023-12-01', { passed: false }),
      service('2023-01-01', 'film-roll', 100),
      healthTest('2023-01-01', { passed: false }),
      lampReading('2024-01-01', 80, 99_999.9),
    ),
    repairs: repairs(2_000, '2024-03-01', { lampOnS: 36_000, irradianceWPerM2: 80 }),
  });
  for (const given of [facts(), worn]) {
    const state = careStateOf(given, CARE, tFactor);
    const unit = 'a name as long as a unit file allows it';
    const screen = careScreen({ unit, simulated: true, state, notes: ['word '.repeat(40)] });
    const lines = [...screen, ...historyLines(given.care, given.today)];
    expect(lines.filter((line) => line.length > 80)).toEqual([]);
  }
  expect(
    careScreen({
      unit: 'u',
      simulated: false,
      state: careStateOf(worn, CARE, tFactor),
      notes: [],
    }).filter((line) => line.startsWith('X ')).length,
  ).toBeGreaterThanOrEqual(6);
});

test('what is logged counts, is listed, and keeps the name where it can be removed', async () => {
  const by = 'Invented Person';
  const kept = await care('log', 'cleaning', '--by', by, '--note', 'wiped', '--records', 'a');
  expect(kept.code).toBe(0);
  expect((await care('--records', 'a')).out).toContain('done on 2000-01-01');
  expect((await care('history', '--records', 'a')).out).toContain(
    '2000-01-01     1  cleaning: wiped',
  );
  expect(readFileSync(join(folder, 'a', 'chain.jsonl'), 'utf8')).not.toContain(by);
  expect(readFileSync(join(folder, 'a', 'personal', '1.json'), 'utf8')).toContain(by);
});

test.each([
  [['log', 'o-ring', '--by', 'Xaver', '--note', 'by xaver'], 'without the name'],
  [['log', 'o-ring', '--by', 'X', '--on', '2000-01-02'], 'a day up to 2000-01-01'],
])('%j is refused with what is accepted, and nothing is written', async (args, words) => {
  const { code, err } = await care(...args, '--records', 'none');
  expect(code).toBe(2);
  expect(err).toContain(words);
  expect(existsSync(join(folder, 'none'))).toBe(false);
});

test('a day that the calendar does not have is no day', () => {
  expect(parseDay('2000-02-29')).toBe('2000-02-29');
  for (const words of ['2001-02-29', '2000-13-01', '1.1.2000', '']) {
    expect(() => parseDay(words)).toThrow('YYYY-MM-DD');
  }
});

/** Versions of Node differ in the last digit of a power or a logarithm; a double holds nearly 16. */
const rounded = <T>(value: T): T =>
  JSON.parse(
    JSON.stringify(value, (_, inner) =>
      typeof inner === 'number' ? Number(inner.toPrecision(12)) : inner,
    ),
  );

test('the demo unit ships with entries that are sound and agree with the arithmetic', () => {
  const bodies = demo.entries.map((body, i) => parseCareBody(body, `entry ${i}`));
  expect(bodies.every(({ ok }) => ok)).toBe(true);
  const results = bodies.flatMap((parsed): readonly [unknown, CalibrationResult<unknown>][] => {
    if (!parsed.ok || parsed.value.what !== 'calibration') return [];
    const { value } = parsed;
    const { reference, checks } = value;
    const points = value.points as unknown as TwoPoints;
    const { pressure, irradiance, temperature } = CARE.calibration;
    if (value.channel === 'pressure') {
      const { before } = value;
      const given = { points, checks, before, reference, unitStep: 490, limits: pressure.limits };
      return [[value, calibratePressure(given)]];
    }
    if (value.channel === 'irradiance') {
      const { before } = value;
      const given = { points, before, reference, unitStep: 0.5, limits: irradiance.limits };
      return [[value, calibrateIrradiance(given)]];
    }
    const { before } = value;
    const curve = { a: 0.001129148, b: 0.000234125, c: 8.76741e-8 };
    const { limits } = temperature;
    const given = { points, checks, before, curve, reference, unitStep: 0.1, limits };
    return [[value, calibrateTemperature(given)]];
  });
  expect(results).toHaveLength(3);
  for (const [stored, { passed, uncertainty }] of results) {
    expect(rounded(stored)).toMatchObject(rounded({ passed, uncertainty }));
  }
});
