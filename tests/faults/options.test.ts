import { describe, expect, test } from 'vitest';
import { caseOf } from './cases.ts';
import { parseOptions } from './options.ts';
import { ROWS } from './rows.ts';

const problem = (...args: readonly string[]): string => {
  const parsed = parseOptions(args);
  return parsed.ok ? '' : parsed.problem;
};

describe('options of the campaign', () => {
  test('everything is tried where nothing is said', () => {
    const parsed = parseOptions([]);
    expect(parsed.ok && parsed.value).toMatchObject({ pairs: 2000, seed: 1, whole: true });
    expect(parsed.ok && parsed.value.rows).toEqual(ROWS);
  });

  test('a place stands for its rows, and rows alone are tried without pairs', () => {
    const parsed = parseOptions(['--rows', 'contacts,pump-dead']);
    expect(parsed.ok && parsed.value.rows.map(({ id }) => id)).toContain('shield-read-shorted');
    expect(parsed.ok && parsed.value.rows.at(-1)?.id).toBe('pump-dead');
    expect(parsed.ok && parsed.value.pairs).toBe(0);
  });

  test.each([
    [['--rows', 'pump'], 'no row or place pump; there are pump-dead, pump-stuck-on'],
    [['--rows', 'gremlin'], 'there are pressure, light'],
    [['--pairs=-1'], '--pairs is -1; accepted: a whole number from 0'],
    [['--pairs', ''], '--pairs is '],
    [['--seed', '1.5'], '--seed is 1.5; accepted: a whole number'],
    [['--journal', 'j.jsonl'], '--journal needs --case'],
    [['--sead', '1'], "'--sead'"],
    [['pressure'], "'pressure'"],
  ])('%j is refused', (args, told) => {
    expect(problem(...args)).toContain(told);
  });
});

describe('a case by its id', () => {
  test.each([
    ['pressure-stuck', 'a case is SEED/ROW@MOMENT'],
    ['x/pressure-stuck@together.evacuate.1', 'a case is SEED/ROW@MOMENT'],
    ['1/gremlin@together.evacuate.1', 'there is no row gremlin'],
    [
      '1/pump-dead@together.tea.1',
      'there is no moment together.tea.1; there are together.self-test.1',
    ],
  ])('%s is refused', (id, told) => {
    expect(() => caseOf(id)).toThrow(told);
  });
});

test('a board that there is not is refused', () => {
  expect(problem('--board', 'paper')).toContain('--board is paper; accepted: simulated, emulated');
  expect(parseOptions(['--board', 'emulated'])).toMatchObject({ value: { whole: false } });
});
