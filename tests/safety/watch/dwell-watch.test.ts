/** A pump of 25 mL/s and a ratio of 12.5 on 30 mL: what its work tells of a leak in a dwell. */
import { describe, expect, test } from 'vitest';
import { AIR_WATCH_START, type AirWatch } from '../../../src/safety/watch/air-watch.ts';
import {
  DWELL_WATCH_START,
  type DwellSeen,
  type DwellWatch,
  stepDwellWatch,
} from '../../../src/safety/watch/dwell-watch.ts';

const TICK_S = 0.05;
const AIR_PA = 100_000;
const CHAMBER = {
  volumeM3: 30e-6,
  pump: {
    greatestRatio: 12.5,
    freeFlowM3PerS: 25e-6,
    deadHeadPa: 230_000,
    ratedV: 12,
    startLagS: 0.08,
  },
};
/** It has shown all of its data sheet, of which 85 % is kept. */
const PUMP: AirWatch = { ...AIR_WATCH_START, strengthRatio: 1, speedRatio: 0.05 };

function dwell(
  seconds: number,
  pressurePa: (timeS: number) => number | null,
  air: Partial<AirWatch> = {},
  seen: Partial<DwellSeen> = {},
): DwellWatch {
  let watch = DWELL_WATCH_START;
  for (let tick = 1; tick <= Math.round(seconds / TICK_S); tick++) {
    const at = { atmospherePa: AIR_PA, dwelling: true, pressurePa: pressurePa(tick * TICK_S) };
    watch = stepDwellWatch(watch, { ...at, ...seen }, { ...PUMP, ...air }, CHAMBER, TICK_S);
  }
  return watch;
}
const leakAfter = (...given: Parameters<typeof dwell>): number | null =>
  dwell(...given).leakPaM3PerS;

describe('a steady pressure leaks in as much as the pump takes out', () => {
  test('in suction: the data sheet’s flow falls in a line to nothing at an air’s 12.5th part', () => {
    // 85 % of 5 % of 25 mL/s times 12.5/11.5, of 25 kPa less 8 kPa.
    const expected = 0.85 * 0.05 * 25e-6 * (12.5 / 11.5) * 17_000;
    expect(leakAfter(16, () => 25_000)).toBeCloseTo(expected, 8);
  });

  test('in compression, given for gas at the air’s pressure: the same hole, the same figure', () => {
    // 85 % of 5 % of 25 mL/s of air, less 138 of 230 kPa; 2.38 times as dense as the air.
    const delivered = 0.85 * 0.05 * 25e-6 * AIR_PA * (1 - 138_000 / 230_000);
    const expected = (delivered * AIR_PA) / 238_000;
    expect(leakAfter(16, () => 238_000, { vacuum: false })).toBeCloseTo(expected, 8);
  });
});

test('what the reading rises by has leaked in as well, with the pump at rest', () => {
  // 100 Pa/s into 30 mL are 3 mPa m3/s.
  expect(leakAfter(16, (s) => 25_000 + 100 * s, { speedRatio: 0 })).toBeCloseTo(0.003, 5);
});

test('a tight chamber with its pump at rest leaks nothing', () => {
  expect(leakAfter(16, () => 25_000, { speedRatio: 0 })).toBeCloseTo(0, 12);
});

test('a pump that has shown nothing is taken for half as strong as its data sheet', () => {
  const known = leakAfter(16, () => 25_000) ?? Number.NaN;
  const unknown = leakAfter(16, () => 25_000, { strengthRatio: null }) ?? Number.NaN;
  expect(unknown / known).toBeCloseTo(0.5 / 0.85, 9);
});

describe('nothing is said', () => {
  test('before the dwell has settled for 5 s and a block of 10 s is over', () => {
    expect(leakAfter(14.8, () => 25_000)).toBeNull();
  });

  test('outside a dwell, or without a reading', () => {
    expect(dwell(30, () => 25_000, {}, { dwelling: false })).toBe(DWELL_WATCH_START);
    expect(dwell(30, () => null)).toBe(DWELL_WATCH_START);
  });

  test('of a dwell that ended: the next one settles anew', () => {
    const gap = (s: number) => (s > 15.5 && s < 15.7 ? null : 25_000);
    expect(leakAfter(15.4, gap)).not.toBeNull();
    expect(leakAfter(20, gap)).toBeNull();
  });
});
