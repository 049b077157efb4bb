/**
 * The controller's dose, a trapezoid each tick, against adaptive quadrature of lamp histories that
 * have no simple closed form. Tolerance: the trapezoid's leading error, h²/12 of the rise in slope
 * from first to last (Euler and Maclaurin), and a tenth of it for what follows.
 */
import { NO_DOSE, stepDose } from '../../../src/cure/dose.ts';
import { measured } from '../../frames.ts';
import type { CheckGroup, CheckRow, Plot } from '../check.ts';
import reference from '../reference/dose-quadrature.json' with { type: 'json' };

const TICK_S = 0.05;
/** Rounding of a few thousand additions of a sum near 1e5. */
const ROUNDING_J_PER_M2 = 1e-8;

type Lamp = (timeS: number) => number;

function doseJPerM2(lamp: Lamp, seconds: number, stepS = TICK_S): number {
  let dose = NO_DOSE;
  for (let i = 0; i <= Math.round(seconds / stepS); i++) {
    dose = stepDose(dose, measured(lamp(i * stepS)), true, stepS);
  }
  return dose.doseJPerM2;
}

const warmUpAndDroop: Lamp = (t) =>
  200 * (1 - Math.exp(-t / 2)) * (1 - 0.1 * (1 - Math.exp(-t / 120)));
const ripple: Lamp = (t) => 150 * (1 + 0.05 * Math.sin(2 * Math.PI * 0.7 * t)) * Math.exp(-t / 900);
const bell: Lamp = (t) => 200 * Math.exp(-(((t - 60) / 20) ** 2));

const errorJPerM2 = (slopeRise: number, stepS = TICK_S): number =>
  Math.abs((stepS * stepS * slopeRise) / 12);

const solvedRow = (
  what: string,
  lamp: Lamp,
  seconds: number,
  { doseJPerM2: expected, slopeRiseWPerM2S }: (typeof reference)['bell'],
): CheckRow => ({
  what,
  actual: () => doseJPerM2(lamp, seconds),
  expected,
  tolerance: 1.1 * errorJPerM2(slopeRiseWPerM2S) + ROUNDING_J_PER_M2,
  unit: 'J/m2',
  source: 'reference/dose-quadrature.md, scipy.integrate.quad; tolerance h²/12 [E′]',
  obtained: 'independent solver',
});

const STEPS_S = [0.025, 0.05, 0.1, 0.2, 0.5, 1];

const plots = (): readonly Plot[] => [
  {
    title: 'Error of the dose against the step, warm-up and droop',
    xLabel: 'step, s',
    yLabel: 'error, J/m²',
    scale: 'log both',
    lines: [
      {
        label: 'controller less quadrature, amount',
        x: STEPS_S,
        y: STEPS_S.map((stepS) =>
          Math.abs(doseJPerM2(warmUpAndDroop, 300, stepS) - reference.warmUpAndDroop.doseJPerM2),
        ),
      },
    ],
    points: [
      {
        label: 'leading term h²/12 [E′]',
        x: STEPS_S,
        y: STEPS_S.map((stepS) => errorJPerM2(reference.warmUpAndDroop.slopeRiseWPerM2S, stepS)),
      },
    ],
  },
];

export const DOSE_QUADRATURE: CheckGroup = {
  title: 'dose of lamps without a closed form',
  rows: [
    solvedRow('a lamp that warms up and droops', warmUpAndDroop, 300, reference.warmUpAndDroop),
    solvedRow('a lamp that ripples and fades', ripple, 240, reference.ripple),
    solvedRow('a bell, as of a hand that passes', bell, 120, reference.bell),
    {
      what: 'a ramp from 20 to 200 W/m2 in 90 s',
      actual: () => doseJPerM2((t) => 20 + 2 * t, 90),
      expected: 9900,
      // The trapezoid is exact for a straight line.
      tolerance: ROUNDING_J_PER_M2,
      unit: 'J/m2',
      source: 'area of a trapezium, exact',
      obtained: 'computed',
    },
  ],
  plots,
};
