/**
 * A shut-off chamber over glass is left to itself: a pump that still draws is found long before the
 * limit on vacuum, and air that comes in is left to the seal test.
 */
import { expect, test } from 'vitest';
import { pass } from '../steered-unit.ts';
import { repairIn } from '../steering.ts';

/** The chamber was shut off at what the seal test pulls to. */
const shutOff = () => pass(repairIn('seal-watch'), 1);
const alarmsAfter = (byPa: number): readonly string[] => {
  const unit = shutOff();
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
