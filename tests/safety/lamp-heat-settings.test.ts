import { expect, test } from 'vitest';
import { lampHeatSchema } from '../../src/safety/lamp-heat-settings.ts';

test('the shares of a lamp’s heat are read as parts of one', () => {
  const read = lampHeatSchema.parse({
    heatLeastPercent: 65,
    sinkWithinPercent: 20,
    glassAbsorbsPercent: 75,
    glassAbsorbsLeastPercent: 35,
    glassWithinPercent: 40,
  });
  expect(read).toEqual({
    electricW: 12,
    sinkJPerK: 60,
    sinkWPerK: 0.4,
    glassJPerM2K: 8200,
    glassWPerM2K: 47,
    airWithinK: 3,
    heatLeastRatio: 0.65,
    sinkWithinRatio: 0.2,
    glassAbsorbsRatio: 0.75,
    glassAbsorbsLeastRatio: 0.35,
    glassWithinRatio: 0.4,
  });
});
