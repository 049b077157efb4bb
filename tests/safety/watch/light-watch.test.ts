import { expect, test } from 'vitest';
import {
  LIGHT_WATCH_START,
  type LightWatch,
  stepLightWatch,
} from '../../../src/safety/watch/light-watch.ts';

const TICK_S = 0.05;
const REST = 102;

const dark = (from: LightWatch, seconds: number): LightWatch =>
  play(from, seconds, () => REST, false);

function play(
  from: LightWatch,
  seconds: number,
  countsAt: (s: number) => number,
  lampOn = true,
): LightWatch {
  let watch = from;
  for (let n = 0; n < Math.round(seconds / TICK_S); n++) {
    watch = stepLightWatch(watch, countsAt(n * TICK_S), lampOn, TICK_S);
  }
  return watch;
}

const rested = dark(LIGHT_WATCH_START, 2);
const lit = play(rested, 5, () => 502);

test('a warm lamp that loses a tenth of its light in two minutes keeps to its level', () => {
  expect(play(rested, 120, (s) => 502 - (40 * s) / 120).oddS).toBe(0);
});

test('a weak lamp, of which noise is a large share, keeps to its level', () => {
  expect(play(rested, 60, (s) => 120 + 2 * (Math.round(s / TICK_S) % 2)).oddS).toBe(0);
});

test('a jump by an eighth of the light is off its level for as long as it lasts', () => {
  const jumped = play(lit, 1, () => 552);
  expect(jumped.oddS).toBeCloseTo(1, 6);
  expect(play(jumped, 3, () => 502).oddS).toBeCloseTo(1, 6);
});

test('a lamp that flickers is off its level, though a median of three would show it steady', () => {
  expect(play(lit, 3, (s) => (Math.round(s / TICK_S) % 3 === 0 ? REST : 502)).oddS).toBeCloseTo(
    1,
    6,
  );
});

test('light that comes back at another level after a short gap is off its level', () => {
  expect(play(dark(lit, 0.4), 2, () => 402).oddS).toBeGreaterThan(1.4);
});

test('after a long time without light any level is a new one', () => {
  expect(play(dark(lit, 5), 2, () => 402).oddS).toBe(0);
});

test('one sample spoilt by a pulse makes no new level, wherever it falls', () => {
  for (let at = 0; at < 40; at++) {
    const watch = play(rested, 4, (s) => (Math.round(s / TICK_S) === at ? 0 : 502));
    expect(watch.oddS).toBeLessThan(0.12);
  }
});

test('the lamp switched off ends the count', () => {
  expect(
    dark(
      play(lit, 1, () => 900),
      0.05,
    ).oddS,
  ).toBe(0);
});
