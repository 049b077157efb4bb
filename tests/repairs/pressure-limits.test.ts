/**
 * Whatever the pressure sensor says, and whenever it begins: the plant's own pressure stays within
 * the limits of the profile, and healthy units are left alone.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { PhaseId } from '../../src/core/phases.ts';
import {
  alarmsOf,
  type Bench,
  benchAtRest,
  benchIn,
  forked,
  SOUND_WORLD,
  stepBench,
  type World,
} from './air-bench.ts';
import { type Lie, truthUnder } from './lying-pressure.ts';

/** Of the demo profile. */
const HIGHEST_GAUGE_PA = 172_000;
const LOWEST_PA = 15_000;
/**
 * Expanded uncertainty (k = 2) of a pressure by the demo unit file, in kPa of 400 kPa span: offset
 * 0.8, slope 0.5, linearity 0.6, temperature 0.6, drift 0.4 as half-widths, over the square root of
 * three.
 */
const SENSOR_ERROR_PA = 1_540;

const MOMENTS: readonly (readonly [PhaseId, number])[] = [
  ['seal-pull', 0],
  ['seal-pull', 0.3],
  ['seal-watch', 5],
  ['seal-open', 0],
  ['seal-press', 0],
  ['seal-press', 0.3],
  ['seal-press', 1],
  ['press-watch', 5],
  ['evacuate', 0],
  ['evacuate', 0.6],
  ['vacuum-dwell', 0],
  ['vacuum-dwell', 20],
  ['ask-bubbles', 0.5],
  ['release', 0],
  ['pressurise', 0],
  ['pressurise', 0.3],
  ['pressurise', 1],
  ['pressure-dwell', 0],
  ['pressure-dwell', 20],
];

/** One job, forked at each moment. */
function forksOf(change: Partial<World>): readonly Bench[] {
  let bench = benchAtRest({ ...SOUND_WORLD, ...change });
  return MOMENTS.map(([phase, afterS]) => {
    bench = benchIn(bench, phase, afterS);
    return forked(bench);
  });
}
const forkIn = (forks: readonly Bench[], phase: PhaseId, afterS: number): Bench => {
  const fork = forks[MOMENTS.findIndex(([at, s]) => at === phase && s === afterS)];
  if (fork === undefined) throw new Error(`no fork ${afterS} s in ${phase}`);
  return fork;
};

const sound = forksOf({});

/** Phases and moments in which the pump moves the pressure. */
const MOVING = [
  ['seal-pull', 0],
  ['seal-pull', 0.3],
  ['evacuate', 0],
  ['evacuate', 0.6],
  ['pressurise', 0],
  ['pressurise', 0.3],
  ['pressurise', 1],
] as const;

describe('a sensor that does not follow the pump', () => {
  const lies: readonly Lie[] = [{ lie: 'stuck' }, { lie: 'dither' }, { lie: 'slow', tauS: 5 }];
  test.each(lies)('$lie is found within a second, wherever the pump moves the pressure', (lie) => {
    for (const [phase, afterS] of MOVING) {
      const { alarms, foundAfterS } = truthUnder(lie, forkIn(sound, phase, afterS), 2);
      expect(alarms, `${afterS} s in ${phase}`).toEqual(['pump-no-effect']);
      expect(foundAfterS, `${afterS} s in ${phase}`).toBeLessThan(1);
    }
  });

  test('stuck 0.3 s into pressurising it costs 52 kPa, not 198', () => {
    const { highestGaugePa } = truthUnder({ lie: 'stuck' }, forkIn(sound, 'pressurise', 0.3), 8);
    expect(highestGaugePa).toBeLessThan(52_000);
  });

  test('stuck while the dry seal is pressed, it is taken for a foot that lifts until the next pull', () => {
    for (const afterS of [0, 0.3]) {
      const fork = forkIn(sound, 'seal-press', afterS);
      expect(truthUnder({ lie: 'stuck' }, fork, 2).alarms).toEqual([]);
      const { alarms, highestGaugePa } = truthUnder({ lie: 'stuck' }, fork, 8);
      expect(alarms).toEqual(['pump-no-effect']);
      expect(highestGaugePa).toBeLessThan(52_000);
    }
  });
});

const lie: fc.Arbitrary<Lie> = fc.oneof(
  fc.constant<Lie>({ lie: 'stuck' }),
  fc.constant<Lie>({ lie: 'dither' }),
  fc.double({ min: 0.05, max: 30, noNaN: true }).map((tauS): Lie => ({ lie: 'slow', tauS })),
  fc.double({ min: -9, max: 9, noNaN: true }).map(
    (log): Lie => ({
      lie: 'drift',
      paPerS: Math.sign(log) * 10 ** ((Math.abs(log) / 9) * 2.5 + 1.5),
    }),
  ),
  fc.integer({ min: -60_000, max: 60_000 }).map((pa): Lie => ({ lie: 'jump', pa })),
  fc.double({ min: 0.5, max: 1.5, noNaN: true }).map((share): Lie => ({ lie: 'span', share })),
);

function staysWithin(forks: readonly Bench[], numRuns: number): void {
  fc.assert(
    fc.property(lie, fc.nat(MOMENTS.length - 1), (how, moment) => {
      const fork = forks[moment];
      if (fork === undefined) return;
      const { highestGaugePa, lowestPa } = truthUnder(how, fork, 60);
      expect(highestGaugePa).toBeLessThan(HIGHEST_GAUGE_PA + SENSOR_ERROR_PA);
      expect(lowestPa).toBeGreaterThan(LOWEST_PA - SENSOR_ERROR_PA);
    }),
    { numRuns },
  );
}

describe('the true pressure stays within the profile’s limits, however the sensor lies', () => {
  test('with a sound pump', () => staysWithin(sound, 25));
  test('with a pump that has lost two fifths of its flow', () =>
    staysWithin(forksOf({ pumpFlowRatio: 0.6 }), 10));
});

describe('a healthy unit raises no alarm', () => {
  const worlds: readonly Partial<World>[] = [
    { pumpFlowRatio: 0.6 },
    { atmospherePa: 74_700, pumpFlowRatio: 0.6 },
    // Just inside the limit of the seal test: 0.004 of 0.005 Pa m3/s.
    { gritRatio: 0.17 },
  ];
  test.each(worlds)('%j', (world) => {
    const bench = benchIn(benchAtRest({ ...SOUND_WORLD, ...world }), 'vent');
    expect(alarmsOf(bench)).toEqual([]);
  });
});

describe('a leak that begins in a dwell, which the pump makes up for', () => {
  const leaking = (phase: PhaseId, gritRatio: number, forS: number) => {
    let bench = forked(forkIn(sound, phase, 20), { world: { ...SOUND_WORLD, gritRatio } });
    const beganS = bench.unit.boardS;
    while (bench.unit.boardS < beganS + forS && alarmsOf(bench).length === 0) {
      bench = stepBench(bench);
    }
    return { alarms: alarmsOf(bench), afterS: bench.unit.boardS - beganS };
  };

  // The demo's grit leaks 0.02 Pa m3/s into a vacuum, four times the limit of the seal test.
  test.each([
    ['vacuum-dwell', 30],
    ['pressure-dwell', 20],
  ] as const)('of grit under the ring is told from its work in %s', (phase, withinS) => {
    const { alarms, afterS } = leaking(phase, 1, 39);
    expect(alarms).toEqual(['leak-in-dwell']);
    expect(afterS).toBeLessThan(withinS);
  });

  test('smaller than the limit of the seal test is not found, and does no harm', () => {
    expect(leaking('vacuum-dwell', 0.15, 39).alarms).toEqual([]);
  });
});
