import { describe, expect, test } from 'vitest';
import { lampHeatSchema } from '../../../src/safety/lamp-heat-settings.ts';
import {
  SINK_WATCH_START,
  type SinkWatch,
  sinkExcessK,
  sinkFallK,
  sinkLackK,
  sinkRise,
  stepSinkWatch,
} from '../../../src/safety/watch/sink-watch.ts';

const HEAT = lampHeatSchema.parse({});
const TICK_S = 0.05;
const AIR_K = 295;

/** Lets time pass with this reading, by the time since then. */
function watched(
  from: SinkWatch,
  seconds: number,
  sinkK: (sinceS: number) => number | null,
  driveRatio: number | ((sinceS: number) => number),
): SinkWatch {
  let watch = from;
  for (let tick = 1; tick <= Math.round(seconds / TICK_S); tick++) {
    const sinceS = tick * TICK_S;
    const drive = typeof driveRatio === 'number' ? driveRatio : driveRatio(sinceS);
    const scene = { sinkK: sinkK(sinceS), driveRatio: drive, airK: AIR_K };
    watch = stepSinkWatch(watch, scene, HEAT, TICK_S);
  }
  return watch;
}

/** 12 W into 60 J/K, which lose 0.4 W/K. */
const warming = (sinceS: number): number => AIR_K + 30 * (1 - Math.exp(-sinceS / 150));
const rested = watched(SINK_WATCH_START, 60, () => AIR_K, 0);

describe('the watch on the heat sink', () => {
  test('expects nothing before the lamp was ever on, however the reading moves', () => {
    const moved = watched(SINK_WATCH_START, 60, (s) => AIR_K + s, 0);
    expect([sinkLackK(moved), sinkExcessK(moved), sinkRise(moved)]).toEqual([null, null, null]);
  });

  test('finds a sound heat sink inside its range all the time, and as warm as is usual', () => {
    for (const s of [5, 20, 60, 150, 400]) {
      const lit = watched(rested, s, warming, 1);
      expect(sinkLackK(lit), `${s} s`).toBeLessThan(0);
      expect(sinkExcessK(lit), `${s} s`).toBeLessThan(0);
    }
    const rise = sinkRise(watched(rested, 300, warming, 1));
    expect(rise?.seenK).toBeCloseTo(30 * (1 - Math.exp(-2)), 0);
    expect(rise?.usualK).toBeCloseTo(30 * (1 - Math.exp(-2)), 1);
  });

  test('misses 2 K half a minute after a stuck reading’s lamp was lit', () => {
    // 60 % of 12 W into 75 J/K: 11.4 K with 150 s over air that is 3 K colder.
    const stuckS = 150 * Math.log(11.4 / 9.4);
    expect(sinkLackK(watched(rested, stuckS - 1, () => AIR_K, 1))).toBeLessThan(2);
    expect(sinkLackK(watched(rested, stuckS + 1, () => AIR_K, 1))).toBeGreaterThan(2);
  });

  test('does not take the short pauses of a cure for its end', () => {
    const withPauses = (s: number): number => (s % 25 < 0.3 ? 0 : 1);
    const lit = watched(rested, 100, warming, withPauses);
    expect(lit.lit).toBe(true);
    expect(sinkRise(lit)?.seenK).toBeGreaterThan(14);
  });

  test('sees after the lamp that a stuck reading does not cool', () => {
    const lit = watched(rested, 300, warming, 1);
    const topK = warming(300);
    const cooling = watched(lit, 45, (s) => AIR_K + (topK - AIR_K) * Math.exp(-s / 150), 0);
    expect(sinkExcessK(cooling)).toBeLessThan(0);
    expect(sinkFallK(cooling)).toBeGreaterThan(5);
    const stuck = watched(lit, 45, () => topK, 0);
    expect(sinkExcessK(stuck)).toBeGreaterThan(2.5);
    expect(sinkFallK(stuck)).toBeLessThan(0.5);
  });

  test('starts again where there was no reading', () => {
    const lost = watched(watched(rested, 60, warming, 1), 1, () => null, 1);
    expect(sinkLackK(lost)).toBeNull();
    expect(sinkExcessK(watched(lost, 0.1, () => 330, 1))).toBeLessThan(0.1);
  });
});
