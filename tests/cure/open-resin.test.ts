import { describe, expect, test } from 'vitest';
import { type OpenResin, RESIN_CLOSED, stepOpenResin } from '../../src/cure/open-resin.ts';
import { faulty, measured } from '../frames.ts';

const TICK_S = 0.05;
const LEAST_SEEN = 1;
const OPEN = { open: true, lampOn: false };

function expose(
  from: OpenResin,
  seconds: number,
  wPerM2: (tick: number) => number,
  scene = OPEN,
): OpenResin {
  let state = from;
  for (let tick = 0; tick < Math.round(seconds / TICK_S); tick++) {
    state = stepOpenResin(state, measured(wPerM2(tick)), scene, LEAST_SEEN, TICK_S);
  }
  return state;
}

describe('daylight on open resin', () => {
  test('is irradiance times time', () => {
    const { doseJPerM2, lit } = expose(RESIN_CLOSED, 50, () => 20);
    expect(doseJPerM2).toBeCloseTo(1000, 6);
    expect(lit).toBe(true);
  });

  test('just over what the sensor tells from dark is counted whole, just under is not but may hide', () => {
    expect(expose(RESIN_CLOSED, 100, () => 1.01).doseJPerM2).toBeCloseTo(101, 6);
    const under = expose(RESIN_CLOSED, 100, () => 0.99);
    expect(under).toMatchObject({ doseJPerM2: 0, lit: false });
    expect(under.unseenJPerM2).toBeCloseTo(100, 6);
  });

  test('does not come from noise of a dark sensor, however long', () => {
    // The reading is clipped at zero, so noise of +-0.5 W/m2 leaves a mean of 0.25.
    const dark = expose(RESIN_CLOSED, 900, (tick) => (tick % 2 === 0 ? 0.5 : 0));
    expect(dark.doseJPerM2).toBe(0);
  });

  test('stays counted when it gets dark again', () => {
    const lit = expose(RESIN_CLOSED, 10, () => 20);
    const dark = expose(lit, 600, () => 0);
    expect(dark.doseJPerM2).toBe(lit.doseJPerM2);
    expect(dark.lit).toBe(false);
  });

  test('is not counted before resin is open, after it, or while the lamp burns', () => {
    for (const scene of [
      { open: false, lampOn: false },
      { open: true, lampOn: true },
    ]) {
      expect(expose(RESIN_CLOSED, 20, () => 200, scene)).toEqual(RESIN_CLOSED);
    }
  });

  test('is not lit any more once the resin is closed', () => {
    const lit = expose(RESIN_CLOSED, 10, () => 20);
    const closed = stepOpenResin(lit, measured(20), { open: false, lampOn: false }, 1, TICK_S);
    expect(closed).toEqual({ ...lit, lit: false });
  });

  test('without a believable reading stands still, and the time is kept', () => {
    let state = expose(RESIN_CLOSED, 10, () => 20);
    const { doseJPerM2 } = state;
    for (let tick = 0; tick < 100; tick++) {
      state = stepOpenResin(state, faulty('stale'), OPEN, LEAST_SEEN, TICK_S);
    }
    expect(state.doseJPerM2).toBe(doseJPerM2);
    expect(state.blindS).toBeCloseTo(5, 9);
  });
});
