import { expect, test } from 'vitest';
import { DEMO_AIR_UNIT } from '../../../../sim/plant/air/air-unit.ts';
import { liftPerPa, liftRatio, reliefSchema } from '../../../../sim/plant/air/relief.ts';
import { checkSettings } from '../../../../src/core/settings.ts';

const VALVE = DEMO_AIR_UNIT.relief;

test.each([101_325, 79_495])('the relief valve goes by gauge pressure, over %i Pa', (airPa) => {
  const lift = (gaugePa: number) => liftRatio(VALVE, airPa + gaugePa, airPa);
  expect(lift(0)).toBe(0);
  expect(lift(199_999)).toBe(0);
  expect(lift(205_000)).toBeCloseTo(0.25, 12);
  expect(lift(215_000)).toBeCloseTo(0.75, 12);
  expect(lift(220_000)).toBeCloseTo(1, 12);
  expect(lift(400_000)).toBe(1);
});

test('under vacuum the relief valve stays seated', () => {
  expect(liftRatio(VALVE, 8_000, 101_325)).toBe(0);
});

test('the relief valve moves between its two pressures only', () => {
  expect(liftPerPa(VALVE, 0)).toBe(0);
  expect(liftPerPa(VALVE, 0.5)).toBeCloseTo(1 / 20_000, 15);
  expect(liftPerPa(VALVE, 1)).toBe(0);
});

test('a relief valve that is full before it cracks is refused', () => {
  const open = { conductanceDm3PerSBar: 0.2, criticalRatio: 0.3 };
  const read = checkSettings(reliefSchema, { cracksKPa: 200, fullKPa: 190, open }, 'unit');
  expect(read).toMatchObject({
    ok: false,
    problems: [{ path: 'fullKPa', accepted: 'a pressure above cracksKPa' }],
  });
});
