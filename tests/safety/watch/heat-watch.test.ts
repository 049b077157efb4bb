import { describe, expect, test } from 'vitest';
import {
  HEAT_WATCH_START,
  type HeatScene,
  type HeatWatch,
  RATE_TIME_CONSTANT_S,
  stepHeatWatch,
} from '../../../src/safety/watch/heat-watch.ts';

const TICK_S = 0.05;
const SCENE: HeatScene = {
  glassK: 296,
  watching: true,
  airK: 295,
  lowestGlassK: 285,
  paneFollowsAirS: 400,
};

function watch(
  from: HeatWatch,
  seconds: number,
  glassK: (timeS: number) => number | null,
  change: Partial<HeatScene> = {},
): HeatWatch {
  let state = from;
  for (let tick = 1; tick <= Math.round(seconds / TICK_S); tick++) {
    const scene = { ...SCENE, ...change, glassK: glassK(tick * TICK_S) };
    state = stepHeatWatch(state, scene, TICK_S);
  }
  return state;
}

describe('the heating rate', () => {
  test('of a ramp is told in full once ten time constants are over', () => {
    const { rateKPerS } = watch(HEAT_WATCH_START, 10 * RATE_TIME_CONSTANT_S, (t) => 296 + 0.2 * t);
    // Half a tick of lag over the time constant, and 11 exp(-10) not yet told.
    const missing = TICK_S / 2 / RATE_TIME_CONSTANT_S + 11 * Math.exp(-10);
    expect(Math.abs((rateKPerS ?? 0) - 0.2)).toBeLessThan(0.2 * missing * 1.05);
  });

  test('follows the closed form of double smoothing on the way', () => {
    for (const afterS of [8, 16, 31]) {
      const { rateKPerS } = watch(HEAT_WATCH_START, afterS, (t) => 296 + 0.2 * t);
      const x = afterS / RATE_TIME_CONSTANT_S;
      // A tick stands for its end, which the closed form of continuous time does not know.
      expect(Math.abs((rateKPerS ?? 0) - 0.2 * (1 - (1 + x) * Math.exp(-x)))).toBeLessThan(0.001);
    }
  });

  test('is negative when the glass cools', () => {
    expect(watch(HEAT_WATCH_START, 80, (t) => 296 - 0.1 * t).rateKPerS).toBeCloseTo(-0.1, 3);
  });

  test('of a converter that jumps between two counts stays under 0.3 K/min', () => {
    const countK = 0.09;
    for (const everyS of [0.05, 1, 8, 60]) {
      const { greatestRateKPerS } = watch(HEAT_WATCH_START, 600, (t) =>
        Math.floor(t / everyS) % 2 === 0 ? 296 : 296 + countK,
      );
      expect(greatestRateKPerS * 60).toBeLessThan(0.3);
    }
  });

  test('starts anew after a gap, without a jump', () => {
    const warm = watch(HEAT_WATCH_START, 30, () => 296);
    const gap = watch(warm, 5, () => null);
    expect(gap).toMatchObject({ rateKPerS: null, spotOverPaneK: null });
    const back = watch(gap, TICK_S, () => 306);
    expect(back.rateKPerS).toBe(0);
    expect(back.spotOverPaneK).toBeCloseTo(10, 6);
  });
});

describe('the pane around the spot', () => {
  test('is taken to be as warm as the spot when work begins', () => {
    expect(watch(HEAT_WATCH_START, TICK_S, () => 296)).toMatchObject({
      paneK: 296,
      spotOverPaneK: 0,
    });
  });

  test('stays behind when the spot is heated', () => {
    const { spotOverPaneK } = watch(HEAT_WATCH_START, 120, (t) => 296 + Math.min(6, t - TICK_S));
    expect(spotOverPaneK).toBeCloseTo(6, 2);
  });

  test('warms with the air and not faster', () => {
    const cool = { airK: 306 };
    const begun = watch(HEAT_WATCH_START, TICK_S, () => 296, cool);
    const { paneK } = watch(begun, 400, () => 320, cool);
    expect(paneK).toBeCloseTo(306 - 10 * Math.exp(-1), 1);
  });

  test('is never warmer than the spot, so that heat after cooling counts in full', () => {
    const sunny = watch(HEAT_WATCH_START, 1, () => 320);
    const cooled = watch(sunny, 200, () => 300);
    expect(cooled.spotOverPaneK).toBeCloseTo(0, 6);
    expect(watch(cooled, 100, () => 305).spotOverPaneK).toBeCloseTo(5, 3);
  });

  test('warms as a whole for as long as it is too cold to be worked, and no longer', () => {
    const cold = watch(HEAT_WATCH_START, 30, () => 276);
    expect(watch(cold, 100, (t) => 276 + 0.09 * t).spotOverPaneK).toBeCloseTo(0, 6);
    const worked = watch(cold, 120, (t) => Math.min(276 + 0.5 * t, 294));
    expect(worked.spotOverPaneK).toBeGreaterThan(4);
  });

  test('goes on warming with the air while nobody watches the spot', () => {
    const begun = watch(HEAT_WATCH_START, 1, () => 296, { airK: 306 });
    const later = watch(begun, 400, () => 296, { airK: 306, watching: false });
    expect(later.paneK).toBeGreaterThan(302);
    expect(later.spotOverPaneK).toBeNull();
  });
});

test('nothing is watched and nothing changes before work on the glass', () => {
  expect(watch(HEAT_WATCH_START, 10, () => 330, { watching: false })).toBe(HEAT_WATCH_START);
});

test('the greatest difference and rate of the job are kept, the rate either way', () => {
  const hot = watch(HEAT_WATCH_START, 60, (t) => 296 + 0.1 * t);
  const peakK = hot.greatestSpotOverPaneK;
  expect(peakK).toBeGreaterThan(4.5);
  const cooled = watch(hot, 30, (t) => 302 - 0.3 * t);
  // The smoothed spot goes on a little after the glass has turned.
  expect(cooled.greatestSpotOverPaneK).toBeGreaterThanOrEqual(peakK);
  expect(cooled.greatestSpotOverPaneK).toBeLessThan(6);
  expect(cooled.greatestRateKPerS).toBeGreaterThan(0.2);
});
