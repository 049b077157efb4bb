import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  entryValueSI,
  isEnterable,
  pressEntry,
  STEP_TABLE,
  startEntry,
} from '../../../src/procedure/guided/number-entry.ts';

const kPa = (entry: ReturnType<typeof startEntry>): number => entryValueSI(entry) / 1000;

describe('dialling', () => {
  test('starts at the reading, rounded to what the display shows', () => {
    expect(kPa(startEntry('pressure', 100_546.7))).toBe(100.55);
  });

  test('one press is one step of the last decimal, up and down', () => {
    const start = startEntry('pressure', 100_550);
    expect(kPa(pressEntry(start, 1, 10))).toBe(100.56);
    expect(kPa(pressEntry(start, -1, 10))).toBe(100.54);
  });

  test('presses in quick succession grow by the table, and a pause begins anew', () => {
    let entry = startEntry('pressure', 100_000);
    let timeS = 0;
    for (let press = 1; press <= 6; press++) {
      timeS += 0.3;
      entry = pressEntry(entry, 1, timeS);
    }
    // Five single steps, and the sixth counts for ten.
    expect(kPa(entry)).toBe(100.15);
    expect(kPa(pressEntry(entry, 1, timeS + 0.3))).toBe(100.25);
    expect(kPa(pressEntry(entry, 1, timeS + 0.81))).toBe(100.16);
    expect(kPa(pressEntry(entry, -1, timeS + 0.3))).toBe(100.14);
  });

  test('the table falls from press to press and ends with the first', () => {
    const from = STEP_TABLE.map(({ fromPress }) => fromPress);
    expect(from).toEqual([...from].sort((a, b) => b - a));
    expect(STEP_TABLE.at(-1)).toEqual({ fromPress: 1, steps: 1 });
  });

  test('never leaves what a reference can show, and never gathers rounding', () => {
    const presses = fc.array(
      fc.tuple(fc.constantFrom<1 | -1>(1, -1), fc.double({ min: 0, max: 2, noNaN: true })),
      {
        maxLength: 120,
      },
    );
    fc.assert(
      fc.property(fc.double({ min: 0, max: 400_000, noNaN: true }), presses, (pa, all) => {
        let entry = startEntry('pressure', pa);
        let timeS = 0;
        for (const [direction, pauseS] of all) {
          timeS += pauseS;
          entry = pressEntry(entry, direction, timeS);
        }
        expect(Number.isInteger(entry.steps)).toBe(true);
        expect(isEnterable('pressure', entryValueSI(entry))).toBe(true);
      }),
    );
  });
});

test('a number that no such reference shows cannot be entered', () => {
  expect(isEnterable('pressure', 101_325)).toBe(true);
  expect(isEnterable('pressure', 400_001)).toBe(false);
  expect(isEnterable('pressure', -1)).toBe(false);
  expect(isEnterable('temperature', 273.15)).toBe(true);
  expect(isEnterable('temperature', 0)).toBe(false);
});
