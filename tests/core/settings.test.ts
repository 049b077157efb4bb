import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import {
  checkSettings,
  problemLine,
  quantity,
  text,
  wholeNumber,
} from '../../src/core/settings.ts';

const schema = z.strictObject({
  name: text(10),
  outer: z.strictObject({
    pressureKPa: quantity(10, 100, 'kPa'),
    count: wholeNumber(1, 5, 'cycles'),
  }),
});
const check = (input: unknown): readonly string[] => {
  const checked = checkSettings(schema, input, 'unit.json');
  return checked.ok ? [] : checked.problems.map(problemLine);
};
const good = { name: 'a', outer: { pressureKPa: 50, count: 2 } };

describe('settings', () => {
  test('that are in range are taken', () => {
    expect(check(good)).toEqual([]);
    expect(check({ ...good, outer: { pressureKPa: 10, count: 5 } })).toEqual([]);
  });

  test('out of range are told with file, path, value and what is accepted', () => {
    expect(check({ ...good, outer: { pressureKPa: 9.9, count: 2 } })).toEqual([
      'unit.json: outer.pressureKPa is 9.9; accepted: a number from 10 to 100 kPa',
    ]);
  });

  test('are all told at once', () => {
    expect(check({ name: '', outer: { pressureKPa: '50', count: 2.5 }, extra: 1 })).toEqual([
      'unit.json: name is ""; accepted: a text of 1 to 10 characters',
      'unit.json: outer.pressureKPa is "50"; accepted: a number from 10 to 100 kPa',
      'unit.json: outer.count is 2.5; accepted: a whole number from 1 to 5 cycles',
      'unit.json: extra is 1; accepted: no such field (check its spelling and its unit)',
    ]);
  });

  test.each([null, 3, 'text', []])('that are %j as a whole are refused', (input) => {
    expect(check(input)[0]).toMatch(/^unit\.json: the file is .*; accepted: an object$/);
  });

  test('a number that is none is refused', () => {
    for (const pressureKPa of [Number.NaN, Number.POSITIVE_INFINITY, null]) {
      expect(check({ ...good, outer: { pressureKPa, count: 2 } }).length).toBe(1);
    }
  });
});
