import { expect, test } from 'vitest';
import { DOORS } from './doors.ts';
import { knockAt } from './knock.ts';

test('each of one million spoilt inputs is accepted whole or refused by name', () => {
  const parts = DOORS.reduce((sum, { weight }) => sum + weight, 0);
  let knocks = 0;
  for (const [n, door] of DOORS.entries()) {
    const times = Math.ceil((1_000_000 * door.weight) / parts);
    const { refused, accepted } = knockAt(door, times, 100 + n);
    knocks += refused + accepted;
    console.info(`${door.name}: ${refused} refused, ${accepted} accepted`);
    expect(refused).toBeGreaterThan(0);
  }
  expect(knocks).toBeGreaterThanOrEqual(1_000_000);
}, 1_200_000);
