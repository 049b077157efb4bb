import { describe, test } from 'vitest';
import { expectDried, expectNotMet, expectOutgassed, LIARS, MORE_SEEDS } from './seeded.ts';

describe.each(MORE_SEEDS)('with seed %d', (seed) => {
  test('water in the break is told as such, dried, and not found again', () => expectDried(seed));

  test('outgassing is never told as leak or water, and a longer pull carries it off', () =>
    expectOutgassed(seed));

  test.each(LIARS)('%s ends no cure as met', (name) => expectNotMet(name, seed));
});
