/** Fill and pit as two bodies of resin, or as one. */
import { describe, expect, test } from 'vitest';
import { gelled, surfaceTacky } from '../../../../sim/plant/light/cure.ts';
import { stepPlant } from '../../../../sim/plant/plant.ts';
import {
  createPlace,
  createPlantState,
  type PlantState,
} from '../../../../sim/plant/plant-state.ts';
import { type Setup, soundConditions } from '../../../../sim/plant/setup.ts';
import { worldOf } from '../../../../sim/plant/world.ts';
import { SAFE } from '../../../../src/core/frame.ts';
import { DEFAULT_CONFIG } from '../../../configs.ts';

const ROOM_K = 295.15;
const { damage, resin } = DEFAULT_CONFIG.job;
const WORLD = worldOf({ ...damage, pitDepthM: 0.7e-3 }, resin.viscosityPaSAt20C);
const PLACE = createPlace(100_600, WORLD);
const { curing } = WORLD;
const LAMP = { ...SAFE, lampEnabled: true, lampRatio: 1 };
const AROUND = { ...soundConditions(ROOM_K), ambientUvWPerM2: 0 };

function bench(): PlantState {
  const state = createPlantState(PLACE, ROOM_K, ROOM_K);
  state.setup.charged = true;
  return state;
}

const hands = (state: PlantState, change: Partial<Setup>) => Object.assign(state.setup, change);
function light(state: PlantState, seconds: number, drive = LAMP): void {
  for (let tick = 0; tick < seconds * 20; tick++) stepPlant(state, PLACE, drive, AROUND, 50);
}

const COVERED = { injectorOff: true, sealed: false, hoseOn: false, filmOn: true };

describe('a fill cured first', () => {
  const state = bench();
  hands(state, COVERED);
  light(state, 240);
  const alone = state.cure.exposureJPerM2;

  test('sets while there is no pit resin to set', () => {
    expect(gelled(state.cure, curing)).toBe(true);
    expect(surfaceTacky(state.cure, curing)).toBe(false);
    expect(state.pit.exposureJPerM2).toBe(0);
    expect(state.pit.conversion.every((share) => share === 0)).toBe(true);
  });

  test('lies below a pit that is liquid until it is lit itself, and then takes what it lets through', () => {
    hands(state, { filmOn: false });
    light(state, 10, SAFE);
    hands(state, { pitFilled: true });
    light(state, 5, SAFE);
    hands(state, { filmOn: true });
    const before = state.cure.exposureJPerM2;
    // The lamp has gone out long since; what glows on is in the first second.
    expect(before - alone).toBeLessThan(60);
    expect(gelled(state.pit, curing)).toBe(false);
    light(state, 100);
    expect(surfaceTacky(state.pit, curing)).toBe(false);
    const through = (state.cure.exposureJPerM2 - before) / state.pit.exposureJPerM2;
    expect(through).toBeCloseTo(Math.exp(-0.7), 2);
  });
});

describe('a pit put on a liquid fill', () => {
  test('is one body with it and sets with it, in the same light', () => {
    const state = bench();
    hands(state, { ...COVERED, pitFilled: true });
    light(state, 120);
    expect(state.pit).toEqual(state.cure);
    expect(gelled(state.cure, curing)).toBe(true);
  });

  test('left without a film stays sticky', () => {
    const state = bench();
    hands(state, { ...COVERED, filmOn: false, pitFilled: true });
    light(state, 300);
    expect(surfaceTacky(state.pit, curing)).toBe(true);
  });
});

test('a fill that was lit too little to set is still one body with its pit', () => {
  const state = bench();
  hands(state, COVERED);
  light(state, 1);
  hands(state, { pitFilled: true });
  const before = state.cure.exposureJPerM2;
  light(state, 20);
  expect(state.cure.exposureJPerM2 - before).toBeCloseTo(state.pit.exposureJPerM2, 6);
});
