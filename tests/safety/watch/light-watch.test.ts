import { expect, test } from 'vitest';
import { LIGHT_WATCH_START, stepLightWatch } from '../../../src/safety/watch/light-watch.ts';

const quietAfter = (counts: readonly number[], lampOn = true): number =>
  counts.reduce((watch, count) => stepLightWatch(watch, count, lampOn, 1), LIGHT_WATCH_START)
    .quietS;

test('counts within two of each other are still, whatever their last digit does', () => {
  expect(quietAfter([500, 501, 500, 502, 501])).toBe(5);
});

test('a third count ends the stillness, and it is counted anew from there', () => {
  expect(quietAfter([500, 501, 503])).toBe(0);
  expect(quietAfter([500, 501, 503, 503, 504])).toBe(2);
});

test('nothing is counted while the lamp is out', () => {
  expect(quietAfter([102, 102, 102], false)).toBe(0);
});
