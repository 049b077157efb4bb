/**
 * A shut-off chamber over glass is left to itself: a pump that still moves its air is found long
 * before the limits of the profile, and a leak is left to the seal test.
 */
import { expect, test } from 'vitest';
import type { PhaseId } from '../../src/core/phases.ts';
import { pass } from '../steered-unit.ts';
import { repairIn } from '../steering.ts';

/** The chamber was shut off at what the seal test pulls to. */
const shutOff = (phase: PhaseId = 'seal-watch') => pass(repairIn(phase), 1);
const alarmsAfter = (byPa: number, phase?: PhaseId): readonly string[] => {
  const unit = shutOff(phase);
  const seen = pass(unit, 1, { pressurePa: unit.state.procedure.isolatedPa + byPa });
  return seen.log.flatMap((event) =>
    event.kind === 'alarm' && event.to === 'unacknowledged' ? [event.alarm] : [],
  );
};

test('it is shut off well above the limit on vacuum', () => {
  expect(shutOff().state.procedure.isolatedPa).toBeGreaterThan(40_000);
});

test('a pressure that falls by more than 8 kPa by itself holds the job', () => {
  expect(alarmsAfter(-9_000)).toEqual(['set-point-passed']);
  expect(alarmsAfter(-7_000)).toEqual([]);
});

test('a pressure that rises by as much is left to the test', () => {
  expect(alarmsAfter(9_000)).toEqual([]);
});

test('under pressure it is the other way about', () => {
  expect(alarmsAfter(9_000, 'press-watch')).toEqual(['set-point-passed']);
  expect(alarmsAfter(7_000, 'press-watch')).toEqual([]);
  expect(alarmsAfter(-9_000, 'press-watch')).toEqual([]);
});
