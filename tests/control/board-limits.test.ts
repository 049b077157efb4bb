import { describe, expect, test } from 'vitest';
import { COMPILED_LIMITS } from '../../hal/firmata/protocol.ts';
import builtInUnit from '../../src/app/defaults/unit.json' with { type: 'json' };
import { boardLimitsOf } from '../../src/control/board-limits.ts';
import { unitSettingsSchema } from '../../src/control/unit-settings.ts';
import { glassKOf, pressurePaOf, thermistorKOf } from '../../src/signal/channels.ts';
import { DEFAULT_CONFIG } from '../configs.ts';

const { unit } = DEFAULT_CONFIG;

describe('what the board is told to protect', () => {
  test('its pressure ceiling is the last count under the highest pressure, margin and atmosphere', () => {
    const { pressureCeiling } = boardLimitsOf(unit);
    const highestPa = unit.limits.highestPressureGaugePa + 108_500 + 5_000;
    expect(pressurePaOf(pressureCeiling, unit.channels)).toBeLessThanOrEqual(highestPa);
    expect(pressurePaOf(pressureCeiling + 1, unit.channels)).toBeGreaterThan(highestPa);
  });

  test('its heat sink limit lies five kelvin above where the controller stops', () => {
    const { heatSinkFloor } = boardLimitsOf(unit);
    expect(thermistorKOf(heatSinkFloor, unit.channels)).toBeLessThanOrEqual(348.15);
    expect(thermistorKOf(heatSinkFloor - 1, unit.channels)).toBeGreaterThan(348.15);
  });

  test('its glass limit lies five kelvin above the hottest glass that the unit allows', () => {
    const { glassFloor } = boardLimitsOf(unit);
    // 45 degrees Celsius and five more.
    expect(glassKOf(glassFloor, unit.channels)).toBeLessThanOrEqual(323.15);
    expect(glassKOf(glassFloor - 1, unit.channels)).toBeGreaterThan(323.15);
  });

  test.each([
    ['as built in', {}],
    ['at the widest that a unit file may set', { widest: true }],
  ])(
    'with limits %s it only tightens what is compiled into the firmware',
    (_, { widest }: { widest?: boolean }) => {
      const settings = widest
        ? unitSettingsSchema.parse({
            ...builtInUnit,
            limits: {
              ...builtInUnit.limits,
              highestPressureKPaGauge: 190,
              longestLampOnS: 3600,
              highestGlassC: 60,
            },
            alarms: { 'lamp-hot': { limit: 85 } },
          })
        : unit;
      const limits = boardLimitsOf(settings);
      expect(limits.pressureCeiling).toBeLessThanOrEqual(COMPILED_LIMITS.pressureCeiling);
      expect(limits.heatSinkFloor).toBeGreaterThanOrEqual(COMPILED_LIMITS.heatSinkFloor);
      expect(limits.glassFloor).toBeGreaterThanOrEqual(COMPILED_LIMITS.glassFloor);
      expect(limits.longestLampOnS).toBeLessThanOrEqual(COMPILED_LIMITS.longestLampOnS);
      expect(limits.leaseMs).toBeLessThanOrEqual(COMPILED_LIMITS.leaseMs);
    },
  );
});
