import { describe, expect, test } from 'vitest';
import { DOORS } from './doors.ts';
import { knockAt } from './knock.ts';

describe.each(DOORS)('$name', (door) => {
  test('accepts a sound sample', () => {
    expect(door.takeSound()).toBe('accepted');
  });

  test('names what it refuses of spoilt inputs, and never throws', () => {
    expect(knockAt(door, 4 * door.weight, 5).refused).toBeGreaterThan(0);
  });
});
