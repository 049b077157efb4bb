import { describe, expect, test } from 'vitest';
import { lampHeatSchema } from '../../../src/safety/lamp-heat-settings.ts';
import {
  GLASS_WATCH_START,
  type GlassWatch,
  glassLackK,
  glassRise,
  stepGlassWatch,
} from '../../../src/safety/watch/glass-watch.ts';

const HEAT = lampHeatSchema.parse({});
const TICK_S = 0.05;

function watched(
  from: GlassWatch,
  seconds: number,
  glassK: (sinceS: number) => number | null,
  lightWPerM2: number,
  cure: string | null = lightWPerM2 > 0 ? 'cure' : null,
): GlassWatch {
  let watch = from;
  for (let tick = 1; tick <= Math.round(seconds / TICK_S); tick++) {
    const scene = {
      glassK: glassK(tick * TICK_S),
      lightWPerM2,
      lampOn: lightWPerM2 > 0,
      paneFollowsAirS: 400,
      cure,
    };
    watch = stepGlassWatch(watch, scene, HEAT, TICK_S);
  }
  return watch;
}

const PANE_K = 296;
const still = (): number => PANE_K;
/** 70 % of 195 W/m2 on 8.2 kJ/(m2 K), which lose 47 W/(m2 K). */
const warming = (sinceS: number): number => PANE_K + 2.9 * (1 - Math.exp(-sinceS / 175));
const rested = watched(GLASS_WATCH_START, 200, still, 0);

describe('the watch on the glass', () => {
  test('expects nothing without light', () => {
    expect(glassLackK(rested)).toBeNull();
    expect(glassRise(rested)).toBeNull();
  });

  test('finds sound glass as warm as is usual for its light', () => {
    const lit = watched(rested, 300, warming, 195);
    expect(glassLackK(lit)).toBeLessThan(-1);
    expect(glassRise(lit)?.seenK).toBeCloseTo(2.9 * (1 - Math.exp(-300 / 175)), 1);
    expect(glassRise(lit)?.usualK).toBeCloseTo(2.9 * (1 - Math.exp(-300 / 175)), 1);
  });

  test('misses 0.3 K of the least rise of a stuck reading after 66 s', () => {
    expect(glassLackK(watched(rested, 64, still, 195))).toBeLessThan(0.3);
    expect(glassLackK(watched(rested, 68, still, 195))).toBeGreaterThan(0.3);
  });

  test('takes off what the pane does by itself, so that cooling glass is not called stuck', () => {
    const cooling = (fromS: number) => (s: number) => PANE_K + 8 * Math.exp(-(fromS + s) / 400);
    const before = watched(GLASS_WATCH_START, 300, cooling(0), 0);
    const alsoLit = (s: number): number => cooling(300)(s) + warming(s) - PANE_K;
    const lit = watched(before, 200, alsoLit, 195);
    expect(glassLackK(lit)).toBeLessThan(0);
    expect(glassRise(lit)?.seenK).toBeCloseTo(warming(200) - PANE_K, 0);
  });

  test('remembers through a held cure what the light has left in the glass', () => {
    const lit = watched(rested, 100, warming, 195);
    const leftK = warming(100) - PANE_K;
    const held = watched(lit, 30, (s) => PANE_K + leftK * Math.exp(-s / 175), 0);
    const again = watched(held, 30, (s) => warming(100 + s) - 0.4, 195);
    expect(glassLackK(again)).toBeLessThan(0);
  });

  describe('between two cures', () => {
    // A minute of light, and half a minute without.
    const first = watched(rested, 60, warming, 195, 'cure-fill');
    const leftK = warming(60) - PANE_K;
    const cooled = (s: number): number => PANE_K + leftK * Math.exp(-s / 175);
    const between = watched(first, 30, cooled, 0);
    /** 2.9 K above the pane is where the light takes it. */
    const warmedAgain = (s: number): number =>
      PANE_K + 2.9 + (cooled(30) - PANE_K - 2.9) * Math.exp(-s / 175);

    test('finds that the second one has warmed a sound sensor by itself', () => {
      const second = watched(between, 60, warmedAgain, 195, 'cure');
      const risenK = warmedAgain(60) - cooled(30);
      // The reading is smoothed over 5 s: it lags by 0.05 K at the end and leads by 0.02 K before.
      expect(Math.abs((glassRise(second)?.seenK ?? 0) - risenK)).toBeLessThan(0.08);
      expect(glassRise(second)?.usualK).toBeCloseTo(risenK, 1);
      expect(glassLackK(second)).toBeLessThan(0);
    });

    test('finds that the second one has not warmed a sensor that stuck', () => {
      const stuck = (): number => cooled(30);
      const second = watched(between, 100, stuck, 195, 'cure');
      expect(glassRise(second)?.seenK).toBeLessThan(0.1);
      expect(glassLackK(second)).toBeGreaterThan(0.3);
    });
  });
});
