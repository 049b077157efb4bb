/** Noise and causes at two more phases of the tick. */
import { describe, test } from 'vitest';
import { expectNoTripOfOneTick, expectTripOfTwoTicks, MORE_PHASES_S, ROWS } from './noise.ts';

describe.each(ROWS)('$trip', (row) => {
  test.each(MORE_PHASES_S)(
    'does not come of one tick, nor of every other one, %f s into the tick',
    (phaseS) => expectNoTripOfOneTick(row, phaseS),
  );

  test.each(MORE_PHASES_S)('comes of two ticks in a row, %f s into the tick', (phaseS) =>
    expectTripOfTwoTicks(row, phaseS),
  );
});
