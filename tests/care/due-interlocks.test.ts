import { describe, expect, test } from 'vitest';
import type { CareBody } from '../../src/care/care-entry.ts';
import { dueItems } from '../../src/care/due.ts';
import { CARE, facts, healthTest, logged } from './records.ts';

const stateOn = (today: string, ...bodies: readonly CareBody[]) =>
  dueItems(facts({ today, care: logged(...bodies) }), CARE).find(
    ({ item }) => item === 'interlocks',
  )?.state;

describe('the proof of stop and pressure switch', () => {
  const at = (today: string, ...interlocks: [boolean, boolean]) =>
    stateOn(today, healthTest('2024-05-01', { interlocks }));

  test('falls due with the test that makes it, and blocks a while after', () => {
    expect(at('2024-05-25', true, true)).toBe('in-order');
    expect(at('2024-05-26', true, true)).toBe('due-soon');
    expect(at('2024-06-01', true, true)).toBe('overdue-warn');
    expect(at('2024-07-01', true, true)).toBe('blocked');
  });

  test('blocks at once where a contact did not move, until it is seen to', () => {
    expect(at('2024-05-02', false, true)).toBe('blocked');
    expect(at('2024-05-02', true, false)).toBe('blocked');
    const stuck = healthTest('2024-05-01', { interlocks: [true, false] });
    const mended = healthTest('2024-05-02', { interlocks: [true, true] });
    expect(stateOn('2024-05-03', stuck, mended)).toBe('in-order');
  });

  test('is due where no test tried them, as in tests of older programs', () => {
    expect(stateOn('2024-05-02', healthTest('2024-05-01'))).toBe('due-soon');
  });
});
