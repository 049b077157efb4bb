import { describe, expect, test } from 'vitest';
import { createFaultClock } from '../../../sim/faults/fault-clock.ts';
import { type Fault, REMEDIES } from '../../../sim/faults/faults.ts';
import type { SeenStep } from '../../../sim/people/screen-reading.ts';

describe('when a fault begins and ends', () => {
  const leak = (rest: Partial<Fault>): Fault => ({
    kind: 'seal-leak',
    from: { atS: 10 },
    ...rest,
  });
  const kindsAt = (
    clock: ReturnType<typeof createFaultClock>,
    timeS: number,
    step: SeenStep | null = null,
  ) => clock.active(timeS, step).length;

  test('at a time, for a time', () => {
    const clock = createFaultClock([leak({ lastsS: 5 })]);
    expect([9.99, 10, 14.99, 15, 20].map((timeS) => kindsAt(clock, timeS))).toEqual([
      0, 1, 1, 0, 0,
    ]);
  });

  test('after a step is first seen on the display, and not again when the step comes back', () => {
    const clock = createFaultClock([
      leak({ from: { phase: 'vacuum-dwell', afterS: 3 }, lastsS: 2 }),
    ]);
    const seen = [
      kindsAt(clock, 0, 'evacuate'),
      kindsAt(clock, 1, 'vacuum-dwell'),
      kindsAt(clock, 4, 'ask-bubbles'),
      kindsAt(clock, 6, 'vacuum-dwell'),
      kindsAt(clock, 100, 'vacuum-dwell'),
    ];
    expect(seen).toEqual([0, 0, 1, 0, 0]);
  });

  test('by its own remedy alone, once and for good', () => {
    const clock = createFaultClock([leak({ mendedBy: 'reseat' })]);
    expect(kindsAt(clock, 10)).toBe(1);
    expect(clock.mend(['warm'])).toBe(false);
    expect(kindsAt(clock, 11)).toBe(1);
    expect(clock.mend(['reseat'])).toBe(true);
    expect(kindsAt(clock, 12)).toBe(0);
  });

  test('a remedy before the fault does not prevent it', () => {
    const clock = createFaultClock([leak({ mendedBy: 'reseat' })]);
    expect(kindsAt(clock, 9)).toBe(0);
    clock.mend(REMEDIES);
    expect(kindsAt(clock, 10)).toBe(1);
  });

  test('one without a remedy stays', () => {
    const clock = createFaultClock([leak({})]);
    expect(kindsAt(clock, 10)).toBe(1);
    expect(clock.mend(REMEDIES)).toBe(false);
    expect(kindsAt(clock, 1e4)).toBe(1);
  });
});
