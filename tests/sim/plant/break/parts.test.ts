/** A crack that is filled part by part. */
import { describe, expect, test } from 'vitest';
import {
  type BreakDrive,
  createBreakState,
  lengthM,
  stepBreak,
} from '../../../../sim/plant/break/break.ts';
import { type DamageSizes, demoBreakOf } from '../../../../sim/plant/break/breaks.ts';
import { looksClear } from '../../../../sim/plant/break/sight.ts';

const CRACK: DamageSizes = {
  type: 'crack',
  diameterM: 0.045,
  pitM: 0.002,
  legs: 1,
  longestLegM: 0.045,
};
const whole = demoBreakOf(CRACK);
const parts = demoBreakOf({ ...CRACK, partsM: [0.0125, 0.0125, 0.02] });
const volumeM3 = ({ gaps }: typeof whole) => gaps.reduce((sum, gap) => sum + gap.volumeM3, 0);

test('the parts hold what the whole crack holds, and are as long', () => {
  expect(volumeM3(parts) / volumeM3(whole)).toBeCloseTo(1, 9);
  expect(lengthM(parts)).toBeCloseTo(lengthM(whole), 12);
});

test('each part begins as open as the one before it ends', () => {
  const [first, second] = parts.gaps;
  const end = (first?.mouthApertureM ?? 0) * (first?.endRatio ?? 0);
  expect(second?.mouthApertureM).toBeCloseTo(end, 12);
});

describe('resin under pressure', () => {
  const AIR_PA = 100_600;
  const drive: BreakDrive = {
    injectorPa: AIR_PA + 138_000,
    gasK: 295,
    viscosityPaS: 0.03,
    adhesionNPerM: 0.03,
    solubilityMolPerM3Pa: 2.5e-5,
    diffusionM2PerS: 2e-10,
    resinAirPa: AIR_PA,
    wet: true,
    dry: false,
    gelled: false,
    under: 1,
  };
  // The air is out of the part that is filled.
  const state = createBreakState(parts, AIR_PA, 295);
  for (const gap of state.gaps) gap.trappedMol *= 0.01;
  for (let step = 0; step < 60_000; step++) stepBreak(state, parts, drive, 0.005);

  test('fills the part under the injector and no other', () => {
    const filled = state.gaps.map(({ frontM }, i) => frontM / (parts.gaps[i]?.lengthM ?? 1));
    expect(filled[1]).toBeGreaterThan(0.97);
    expect([filled[0], filled[2]]).toEqual([0, 0]);
  });

  test('shows the part that is looked at clear, and the crack not', () => {
    expect(looksClear(state, parts, 1)).toBe(true);
    expect(looksClear(state, parts, 0)).toBe(false);
    expect(looksClear(state, parts)).toBe(false);
  });
});
