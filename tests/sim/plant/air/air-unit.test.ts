import { describe, expect, test } from 'vitest';
import { airUnitSchema } from '../../../../sim/plant/air/air-unit.ts';
import { checkSettings } from '../../../../src/core/settings.ts';

describe('the settings of the air side', () => {
  const sheet = { conductanceDm3PerSBar: 0.2, criticalRatio: 0.3 };
  const settings = {
    manifoldMl: 12,
    hoseMl: 8,
    injectorMl: 10,
    pump: {
      freeFlowLPerMin: 1.5,
      greatestRatio: 12.5,
      deadHeadKPa: 230,
      stallRatio: 0.08,
      startLagS: 0.08,
      ratedV: 12,
    },
    vent: sheet,
    relief: { cracksKPa: 200, fullKPa: 220, open: sheet },
    hose: sheet,
    openEnd: sheet,
  };

  test('give half of the hose to either node', () => {
    const read = checkSettings(airUnitSchema, settings, 'unit');
    const unit = read.ok ? read.value : undefined;
    expect(unit?.manifoldM3).toBeCloseTo(16e-6, 15);
    expect(unit?.injectorM3).toBeCloseTo(14e-6, 15);
    expect(unit?.pump.freeFlowM3PerS).toBeCloseTo(2.5e-5, 15);
    expect(unit?.pump.deadHeadPa).toBe(230_000);
  });

  test('tell all that is wrong at once', () => {
    const wrong = {
      ...settings,
      hoseMl: 0,
      pump: { ...settings.pump, ratedV: 230 },
      colour: 'red',
    };
    const read = checkSettings(airUnitSchema, wrong, 'unit');
    const paths = read.ok ? [] : read.problems.map(({ path }) => path).sort();
    expect(paths).toEqual(['colour', 'hoseMl', 'pump.ratedV']);
  });
});
