import { describe, expect, test } from 'vitest';
import { DOORS } from './doors.ts';
import { knockAt } from './knock.ts';

describe.each(DOORS)('$name', (door) => {
  test('takes what passes it every day', () => {
    expect(door.takeSound()).toBe('accepted');
  });

  test('refuses what nobody meant by name, and never throws', () => {
    expect(knockAt(door, 4 * door.weight, 5).refused).toBeGreaterThan(0);
  });
});
