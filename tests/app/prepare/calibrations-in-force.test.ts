import { describe, expect, test } from 'vitest';
import { unitInForce, withCalibrations } from '../../../src/app/prepare/calibrations-in-force.ts';
import { settingsFromInputs } from '../../../src/app/prepare/load-settings.ts';
import type { CareBody } from '../../../src/care/care-entry.ts';
import { unitSettingsSchema } from '../../../src/control/unit-settings.ts';
import { FULL_SCALE_COUNTS } from '../../../src/core/frame.ts';
import {
  glassKOf,
  irradianceWPerM2Of,
  pressurePaOf,
  thermistorKOf,
} from '../../../src/signal/channels.ts';
import { irradianceBudget } from '../../../src/signal/irradiance-budget.ts';
import { pressureBudget } from '../../../src/signal/pressure-budget.ts';
import {
  facts,
  irradianceCalibration,
  lampReading,
  logged,
  pressureCalibration,
  temperatureCalibration,
} from '../../care/records.ts';
import { DEFAULT_SETTINGS, DEFAULT_UNIT } from '../../configs.ts';

const UNTIL = '2025-05-01';
const used = (...bodies: readonly CareBody[]) => {
  const result = withCalibrations(DEFAULT_SETTINGS, facts({ care: logged(...bodies) }));
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
};

describe('a calibration in force', () => {
  test('corrects the readings of its channel and of no other', () => {
    const { channels } = used(pressureCalibration('2024-05-01')).settings.config.unit;
    // It adds a kilopascal everywhere.
    for (const counts of [150, 300, 900]) {
      const was = pressurePaOf(counts, DEFAULT_UNIT.channels) ?? Number.NaN;
      expect(pressurePaOf(counts, channels)).toBeCloseTo(was + 1_000, 6);
      expect(irradianceWPerM2Of(counts, channels)).toBe(
        irradianceWPerM2Of(counts, DEFAULT_UNIT.channels),
      );
    }
    const light = used(irradianceCalibration('2024-05-01', UNTIL, 180)).settings.config.unit
      .channels;
    const before = irradianceWPerM2Of(500, DEFAULT_UNIT.channels) ?? Number.NaN;
    expect(irradianceWPerM2Of(500, light)).toBeCloseTo(0.9 * before, 9);
  });

  test('of the glass sensor leaves the heat sink, which has another thermistor', () => {
    const { channels } = used(temperatureCalibration('2024-05-01', UNTIL)).settings.config.unit;
    const counts = FULL_SCALE_COUNTS / 2;
    // In the middle of the divider the thermistor has the resistance of the series resistor.
    const { a, b, c, seriesOhm } = DEFAULT_UNIT.channels.thermistor;
    const log = Math.log(seriesOhm);
    const glassK = 1 / (a + 2e-6 + (b + 3e-7) * log + c * log ** 3);
    expect(glassKOf(counts, channels)).toBeCloseTo(glassK, 9);
    expect(thermistorKOf(counts, channels)).toBe(thermistorKOf(counts, DEFAULT_UNIT.channels));
  });

  test('brings the wavelength of its radiometer, and none where it stated none', () => {
    const adjustedAtNm = (reference: object): number | null => {
      const body = irradianceCalibration('2024-05-01', UNTIL) as Extract<
        CareBody,
        { what: 'calibration' }
      >;
      const given = { ...body, reference: { ...body.reference, ...reference } } as CareBody;
      return used(given).settings.config.unit.channels.irradiance.adjustedAtNm;
    };
    expect(adjustedAtNm({ atNm: 360 })).toBe(360);
    // The unit file states 365, of its own first adjustment.
    expect(adjustedAtNm({})).toBeNull();
  });

  test('brings its uncertainty into the budgets', () => {
    const { channels, uncertainty } = used(
      pressureCalibration('2024-05-01'),
      irradianceCalibration('2024-05-01', UNTIL),
    ).settings.config.unit;
    const part = (rows: ReturnType<typeof pressureBudget>, name: string) =>
      rows.parts.find((row) => row.name === name)?.standard;
    const pressure = pressureBudget(100_000, channels, uncertainty);
    expect(part(pressure, 'offset')).toBeCloseTo(70, 9);
    expect(part(pressure, 'slope')).toBeCloseTo(0.001 * (100_000 - 1_000), 9);
    const light = irradianceBudget(200, channels, uncertainty);
    expect(part(light, 'calibration')).toBeCloseTo(0.021 * 200, 9);
    expect(light.parts.find(({ name }) => name === 'calibration')?.degreesOfFreedom).toBe(40);
  });

  test('counts drift up to the day on which it expires', () => {
    const years = (validUntil: string) =>
      unitInForce(
        DEFAULT_SETTINGS.inputs.unit,
        facts({ care: logged(pressureCalibration('2024-05-01', { validUntil })) }),
      ).file.uncertainty.pressure.calibratedEveryYears;
    expect(years('2025-05-01')).toBe(1);
    expect(years('2024-10-30')).toBeCloseTo(182 / 365, 12);
  });

  test('is in the unit file as used, so that settings made from that alone are the same', () => {
    const { settings, applied } = used(
      pressureCalibration('2024-05-01'),
      temperatureCalibration('2024-05-01', UNTIL),
      lampReading('2024-05-02', 183.4),
    );
    const again = settingsFromInputs(settings.inputs, 'header');
    expect(again.ok && again.value.unit).toEqual(settings.config.unit);
    expect(settings.config.unit.lampLastKnownWPerM2).toBe(183);
    expect(applied.map(({ channel, on }) => [channel, on])).toEqual([
      ['pressure', '2024-05-01'],
      ['temperature', '2024-05-01'],
    ]);
  });

  test('a unit without any keeps its file as it is', () => {
    const { file, applied } = unitInForce(DEFAULT_SETTINGS.inputs.unit, facts());
    expect(file).toEqual(DEFAULT_SETTINGS.inputs.unit);
    expect(applied).toEqual([]);
  });
});

test('a unit file from before there were calibrations reads as it always did', () => {
  const unit = structuredClone(DEFAULT_SETTINGS.inputs.unit) as { channels: object };
  expect(Object.keys(unit.channels)).not.toContain('glassSensor');
  const { channels } = unitSettingsSchema.parse(unit);
  for (const counts of [100, 500, 900]) {
    expect(glassKOf(counts, channels)).toBe(thermistorKOf(counts, channels));
  }
});
