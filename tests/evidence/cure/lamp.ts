/** The lamp's distance, lag and heat sink, and a radiometer under another light, by closed forms. */
import {
  createLampState,
  DEMO_LAMP,
  type LampState,
  stepLamp,
} from '../../../sim/plant/light/lamp.ts';
import {
  type Curve,
  gaussianBand,
  lineBand,
  mismatchFactor,
} from '../../../sim/plant/light/spectrum.ts';
import { type CheckGroup, type CheckRow, closedForm } from '../check.ts';

const ROOM_K = 295.15;

function run(
  seconds: number,
  driveRatio: number,
  start: Partial<LampState> = {},
  distanceM = 0.02,
) {
  const state = { ...createLampState(ROOM_K), ...start };
  const drive = { driveRatio, airK: ROOM_K, ageRatio: 1, heatSinkHeatW: 0, distanceM };
  for (let i = 0; i < Math.round(seconds / 0.05); i++) stepLamp(state, DEMO_LAMP, drive, 0.05);
  return state;
}

const at = (distanceM: number): number =>
  run(0.05, 1, { outputRatio: 1 }, distanceM).irradianceWPerM2;
const SQUARE = 'E = E0 (d0/d)^2, photometric distance law';
const LUMPED =
  'lumped heat balance, T = Tair + (P/G)(1 - exp(-G t/C)), for a lamp that is already on';

export const LAMP_LIGHT_AND_HEAT: CheckGroup = {
  title: 'lamp: distance, lag and heat',
  rows: [
    closedForm('twice the distance', () => at(0.04) / at(0.02), 0.25, 'ratio', SQUARE),
    closedForm('15 mm for 20 mm', () => at(0.015) / at(0.02), 16 / 9, 'ratio', SQUARE),
    closedForm(
      'output one turn-on time after the start',
      () => run(0.05, 1).outputRatio,
      0.6321206,
      'ratio',
      'first-order lag, 1 - 1/e',
      1e-7,
    ),
    closedForm(
      'light that still comes after put off, over that of one turn-on time, at the rated heat sink',
      // Cooling in that time changes the light by 0.003 x 3 K x 0.05 s/150 s.
      () => run(2, 0, { outputRatio: 1, heatSinkK: 298.15 }).doseJPerM2 / (200 * 0.05),
      1,
      'ratio',
      'integral of exp(-t/tau) is tau',
      1e-4,
    ),
    closedForm(
      'rise of a steady heat sink',
      () => run(4500, 1).heatSinkK - ROOM_K,
      30,
      'K',
      LUMPED,
    ),
    closedForm(
      'rise after one of its own times, 150 s',
      () => run(150, 1, { outputRatio: 1 }).heatSinkK - ROOM_K,
      18.963617,
      'K',
      LUMPED,
      3e-8,
    ),
    closedForm(
      'rise after 60 s',
      () => run(60, 1, { outputRatio: 1 }).heatSinkK - ROOM_K,
      9.890399,
      'K',
      LUMPED,
      6e-8,
    ),
    closedForm(
      'heat in less heat out less heat stored, of heat in',
      () => {
        const { heatInJ, heatLostJ, heatSinkK } = run(300, 0.7);
        return 1 + (heatInJ - heatLostJ - 60 * (heatSinkK - ROOM_K)) / heatInJ;
      },
      1,
      'ratio',
      'energy is conserved',
    ),
  ],
};

const SLOPE: Curve = [
  [300, 0],
  [500, 2],
];
const F_STAR =
  'F* of the International Lighting Vocabulary CIE S 017, 17-25-115 (definition seen), worked by hand';
const mismatch = (
  what: string,
  actual: () => number,
  expected: number,
  relative = 1e-9,
): CheckRow => closedForm(what, actual, expected, 'ratio', F_STAR, relative);

export const SPECTRAL_MISMATCH: CheckGroup = {
  title: 'spectral mismatch of a radiometer',
  rows: [
    mismatch(
      'calibrated at 400 nm, used at 350 nm, half as sensitive there',
      () => mismatchFactor(SLOPE, lineBand(350), lineBand(400)),
      2,
    ),
    mismatch(
      'equal halves of 350 and 450 nm: the mean sensitivity is that at 400 nm',
      () => mismatchFactor(SLOPE, { nm: [350, 450], weights: [0.5, 0.5] }, lineBand(400)),
      1,
    ),
    mismatch(
      'symmetric band on a straight slope counts as its peak: 1.0/0.95',
      () => mismatchFactor(SLOPE, gaussianBand(395, 12), gaussianBand(400, 12)),
      1 / 0.95,
    ),
  ],
};
