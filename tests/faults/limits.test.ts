/** Each limit of the campaign on a bench set past it by hand, and just within it. */
import { expect, test } from 'vitest';
import { createRig, type Rig } from '../../sim/board/rig.ts';
import { SAFE } from '../../src/core/frame.ts';
import { ATMOSPHERE_PA, JOBS } from './jobs.ts';
import { LIMITS, watchLimits } from './limits.ts';

const K = (celsius: number): number => 273.15 + celsius;
const LAMP_ON = { ...SAFE, lampEnabled: true, lampRatio: 1 };

/** A sound bench with the shield closed, on which `change` is made. */
function breachesAfter(change: (rig: Rig) => void, forS: number): readonly string[] {
  const rig = createRig(JOBS.together.scenario(1));
  rig.plant.setup.shieldClosed = true;
  change(rig);
  const watch = watchLimits();
  for (let ms = 0; ms <= 1000 * forS; ms += 50) {
    rig.plant.step = ms;
    watch.look(rig);
  }
  return watch.breaches().map(({ limit }) => limit);
}

test('nothing is past a limit on a bench at rest', () => {
  expect(breachesAfter(() => undefined, 60)).toEqual([]);
});

/** In the air of 100.6 kPa: 172 kPa gauge and 1.5 kPa for the transmitter, 15 kPa less 1.5. */
test.each([
  { limit: 'pressure-ceiling', past: 274_200, within: 274_000 },
  { limit: 'pressure-floor', past: 13_400, within: 13_600 },
])('$limit', ({ limit, past, within }) => {
  const at = (pa: number) =>
    breachesAfter((rig) => {
      rig.plant.air.injectorPa = pa;
    }, 0);
  expect(at(past)).toEqual([limit]);
  expect(at(within)).toEqual([]);
});

test('light with the shield open, for longer than the lamp needs to go out', () => {
  const lit = (forS: number, shieldClosed: boolean) =>
    breachesAfter((rig) => {
      rig.plant.setup.shieldClosed = shieldClosed;
      rig.plant.lamp.irradianceWPerM2 = 50;
    }, forS);
  expect(lit(0.5, false)).toEqual(['lamp-with-shield-open']);
  expect(lit(0.3, false)).toEqual([]);
  expect(lit(60, true)).toEqual([]);
});

test('work on hot glass, not hot glass alone', () => {
  const hot = (outerC: number, gaugePa: number, forS: number, acting = SAFE) =>
    breachesAfter((rig) => {
      rig.plant.pane.outerK = K(outerC);
      rig.plant.air.injectorPa = ATMOSPHERE_PA + gaugePa;
      rig.acting = acting;
    }, forS);
  expect(hot(48, -75_000, 11)).toEqual(['glass-too-hot']);
  expect(hot(48, 138_000, 11)).toEqual(['glass-too-hot']);
  expect(hot(48, -75_000, 9)).toEqual([]);
  expect(hot(46, -75_000, 60)).toEqual([]);
  expect(hot(48, 0, 60)).toEqual([]);
  // A pump that no command stops, at an open vent.
  expect(hot(48, -1_000, 60, { ...SAFE, pumpRatio: 1 })).toEqual([]);
});

test('an interlayer past its test temperature while anything works', () => {
  const at = (celsius: number) =>
    breachesAfter((rig) => {
      rig.plant.pane.interlayerK = K(celsius);
      rig.plant.air.injectorPa = ATMOSPHERE_PA - 75_000;
    }, 0);
  expect(at(101)).toEqual(['interlayer-too-hot']);
  expect(at(99)).toEqual([]);
});

test('a lamp that burns on a hot heat sink', () => {
  const at = (celsius: number, wPerM2: number) =>
    breachesAfter((rig) => {
      rig.plant.lamp.heatSinkK = K(celsius);
      rig.plant.lamp.irradianceWPerM2 = wPerM2;
      rig.acting = LAMP_ON;
    }, 3);
  expect(at(96, 50)).toEqual(['heat-sink-too-hot']);
  expect(at(94, 50)).toEqual([]);
  expect(at(96, 0)).toEqual([]);
});

test('a plant whose numbers are none keeps no limit', () => {
  const seen = breachesAfter((rig) => {
    rig.plant.air.injectorPa = Number.NaN;
  }, 0);
  expect(seen).toEqual(['pressure-ceiling', 'pressure-floor']);
});

test('every limit names its source', () => {
  for (const { source } of LIMITS) expect(source.length).toBeGreaterThan(20);
});
