import { exposureToCureJPerM2, targetDoseOf } from '../../../src/cure/target-dose.ts';
import type { CheckGroup, CheckRow } from '../check.ts';

/** In the units of the sources: micrometres and mJ/cm2. */
const exposureMJPerCm2 = (penetrationUm: number, criticalMJ: number, depthUm: number): number =>
  exposureToCureJPerM2(
    { criticalJPerM2: criticalMJ * 10, penetrationM: penetrationUm * 1e-6 },
    depthUm * 1e-6,
  ) / 10;

/** Depths printed to 0.01 um, which is this much of exposure. */
const fromDepth = (depthUm: number, expected: number): CheckRow => ({
  what: `exposure for ${depthUm} um, Dp 150 um, Ec 8 mJ/cm2`,
  actual: () => exposureMJPerCm2(150, 8, depthUm),
  expected,
  tolerance: (expected * 0.005) / 150,
  unit: 'mJ/cm2',
  source: 'working curve, Cd = Dp ln(E/Ec), worked by hand to 0.01 um',
  obtained: 'computed',
});

const RULES = { targetAtResinJPerM2: 1, marginFactor: 1 };
const CURVE = { criticalJPerM2: 80, penetrationM: 150e-6 };
const asked = (marginFactor: number, filmRatio: number, depthUm: number): number =>
  (targetDoseOf({ ...RULES, marginFactor }, filmRatio, depthUm * 1e-6, CURVE).breakJPerM2 ?? 0) /
  10;

export const TARGET_DOSE: CheckGroup = {
  title: 'dose that a depth of break asks for',
  rows: [
    {
      what: 'exposure for 0.21 mm, Dp 0.15 mm, Ec 10 mJ/cm2',
      actual: () => exposureMJPerCm2(150, 10, 210),
      expected: 40,
      // The depth is printed to 0.01 mm, half of which is a thirtieth of Dp.
      tolerance: 40 / 30,
      unit: 'mJ/cm2',
      source: 'textbook example of a working curve: 40 mJ/cm2 cures 0.21 mm',
      obtained: 'seen',
    },
    fromDepth(0, 8),
    fromDepth(33.47, 10),
    fromDepth(137.44, 20),
    fromDepth(274.89, 50),
    fromDepth(378.86, 100),
    fromDepth(482.83, 200),
    {
      what: 'ratio of exposures 103.97 um apart, Dp 150 um',
      actual: () => exposureMJPerCm2(150, 8, 300) / exposureMJPerCm2(150, 8, 300 - 103.97),
      expected: 2,
      tolerance: (2 * 0.005) / 150,
      unit: 'ratio',
      source: 'doubling the exposure adds Dp ln 2 to the depth',
      obtained: 'computed',
    },
    {
      what: 'dose above a film that passes 1/e of the light, for 150 um deep at Dp 150 um',
      actual: () => asked(1, Math.exp(-1), 150),
      expected: 8 * Math.E * Math.E,
      tolerance: 1e-9,
      unit: 'mJ/cm2',
      source: 'a film that passes 1/e is as much in the way as Dp more of resin (Beer and Lambert)',
      obtained: 'computed',
    },
    {
      what: 'dose with a margin of 2, for a depth of Dp less Dp ln 2',
      actual: () => asked(2, 1, 150 * (1 - Math.LN2)),
      expected: 8 * Math.E,
      tolerance: 1e-9,
      unit: 'mJ/cm2',
      source: 'a margin of 2 is as much as Dp ln 2 more of depth',
      obtained: 'computed',
    },
  ],
  plots: () => [
    {
      title: 'Exposure that a depth asks for: Dp 150 um, Ec 8 mJ/cm2',
      xLabel: 'depth, um',
      yLabel: 'exposure, mJ/cm2',
      scale: 'log y',
      lines: [
        {
          label: 'controller',
          x: Array.from({ length: 50 }, (_, i) => i * 10),
          y: Array.from({ length: 50 }, (_, i) => exposureMJPerCm2(150, 8, i * 10)),
        },
      ],
      points: [
        {
          label: 'working curve by hand',
          x: [0, 33.47, 137.44, 274.89, 378.86, 482.83],
          y: [8, 10, 20, 50, 100, 200],
        },
      ],
    },
  ],
};
