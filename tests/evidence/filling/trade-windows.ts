/**
 * What technicians see at the bench, under the default profile's vacuum and pressure: checks on the
 * filling as a whole. Common practice, with no source; the model's apertures and times of escape were
 * chosen so that these hold, so they guard the tuning and prove no physics.
 */
import { createBreakState } from '../../../sim/plant/break/break.ts';
import { type DamageSizes, demoBreakOf } from '../../../sim/plant/break/breaks.ts';
import { looksClear } from '../../../sim/plant/break/sight.ts';
import { DEFAULT_PROFILE } from '../../configs.ts';
import {
  ATMOSPHERE_PA,
  DEMO_PROGRAMME,
  demoDrive,
  hold,
  repair,
} from '../../sim/plant/repair-programme.ts';
import type { CheckGroup, CheckRow } from '../check.ts';

const STAR: DamageSizes = {
  type: 'star-break',
  diameterM: 0.022,
  pitM: 0.002,
  legs: 5,
  longestLegM: 0.01,
};
const BULLSEYE: DamageSizes = { ...STAR, type: 'bullseye', legs: 0, longestLegM: 0 };
const { vacuum, pressure } = DEFAULT_PROFILE;

/** Seconds of pressure in all until the eye calls the break clear after a rest, in 10 s; two cycles. */
function pressureNeededS(sizes: DamageSizes): number {
  const brk = demoBreakOf(sizes);
  const { restS } = DEMO_PROGRAMME;
  for (let each = 5; each <= 300; each += 5) {
    const state = createBreakState(brk, ATMOSPHERE_PA, 296.15);
    const at = (pa: number) => demoDrive(pa, 23);
    for (let cycle = 0; cycle < 2; cycle++) {
      hold(state, brk, at(vacuum.setPointPa), vacuum.dwellS, 0.005);
      hold(state, brk, at(ATMOSPHERE_PA + pressure.setPointGaugePa), each, 0.005);
      hold(state, brk, at(ATMOSPHERE_PA), restS, 0.005);
      if (looksClear(state, brk)) return each * (cycle + 1);
    }
  }
  return Number.POSITIVE_INFINITY;
}

const dark = (sizes: DamageSizes, glassC: number, cycle: 0 | 1, vacuumPa?: number): number => {
  const changes = vacuumPa === undefined ? {} : { vacuumPa };
  return 100 * (1 - (repair(demoBreakOf(sizes), glassC, changes).clarity[cycle] ?? 0));
};

const row = (
  what: string,
  actual: () => number,
  expected: number,
  tolerance: number,
  unit: string,
): CheckRow => ({
  what,
  actual,
  expected,
  tolerance,
  unit,
  source: 'common practice, no source',
  obtained: 'common practice',
  why: 'a window of the trade, not a figure: its middle and half its width',
});

export const TRADE_WINDOWS: CheckGroup = {
  title: 'windows of the trade',
  rows: [
    row(
      'pressure that a tight star leg of 10 mm needs at 23 °C, in all',
      () => pressureNeededS(STAR),
      180,
      60,
      's',
    ),
    row(
      'pressure that a bullseye of 22 mm needs at 23 °C, in all',
      () => pressureNeededS(BULLSEYE),
      60,
      59,
      's',
    ),
    row('dark share of the star after two cycles at 23 °C', () => dark(STAR, 23, 1), 2, 2, '%'),
    row('dark share of the star after one cycle at 23 °C', () => dark(STAR, 23, 0), 7, 3, '%'),
    row(
      'dark share of the star after two cycles in a pane of 5 °C',
      () => dark(STAR, 5, 1),
      20,
      10,
      '%',
    ),
    row(
      'dark share that a vacuum of only 70 kPa leaves in the star',
      () => dark(STAR, 23, 1, 70_000),
      20,
      10,
      '%',
    ),
    row(
      'dark share of a bullseye after one cycle at 23 °C',
      () => dark(BULLSEYE, 23, 0),
      0,
      4,
      '%',
    ),
  ],
};
