import fc from 'fast-check';
import { expect, it } from 'vitest';
import { dayAfter, daysFrom } from '../../src/core/calendar.ts';

it('counts days over the ends of months, years and February', () => {
  expect(daysFrom('2026-11-25', '2026-12-01')).toBe(6);
  expect(daysFrom('2023-12-31', '2024-03-01')).toBe(61);
  expect(daysFrom('2025-03-01', '2025-02-28')).toBe(-1);
  // 1900 was no leap year, 2000 was (Gregorian rule).
  expect(daysFrom('1900-02-28', '1900-03-01')).toBe(1);
  expect(daysFrom('2000-02-28', '2000-03-01')).toBe(2);
});

it('comes back by as many days as it went', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 40_000 }),
      fc.integer({ min: -3000, max: 3000 }),
      (from, days) => {
        const start = dayAfter('1970-01-01', from);
        expect(daysFrom(start, dayAfter(start, days))).toBe(days);
      },
    ),
  );
});
