import { expect, test } from 'vitest';
import builtInUnit from '../../src/app/defaults/unit.json' with { type: 'json' };
import { checkSettings } from '../../src/core/settings.ts';
import { heatingSchema } from '../../src/safety/heating-settings.ts';

test('a unit file without limits for heating has the derived ones, which the demo unit states', () => {
  const derived = heatingSchema.parse(undefined);
  expect(derived).toEqual(heatingSchema.parse(builtInUnit.heating));
  expect(derived).toEqual({
    own: { spotOverPaneK: 8, rateKPerS: 10 / 60 },
    legShare: 0.7,
    plyM: 2.1 / 1000,
    paneFollowsAirS: 400,
  });
});

test.each([
  ['greatestSpotOverPaneK', 2, 20],
  ['greatestRateKPerMin', 1, 60],
  ['legSharePercent', 20, 100],
  ['outerPlyMm', 1, 6],
  ['paneFollowsAirS', 60, 3600],
])('heating.%s may be from %d to %d and nothing beyond', (field, min, max) => {
  const isTaken = (value: unknown): boolean =>
    checkSettings(heatingSchema, { [field]: value }, 'unit.json').ok;
  expect([min, max].map(isTaken)).toEqual([true, true]);
  expect([min * 0.99, max * 1.01, null, 'hot'].map(isTaken)).toEqual([false, false, false, false]);
});
