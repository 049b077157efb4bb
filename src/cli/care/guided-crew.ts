/**
 * The people and instruments at the simulated bench in a guided procedure: reference instruments
 * and, unless a real person uses the keyboard, a scripted person who reads them.
 */

import type { SimulatedBoard } from '../../../sim/board/simulated-board.ts';
import { createCalibratingPerson } from '../../../sim/people/calibrating-person.ts';
import { createReferenceInstrument } from '../../../sim/people/reference-instruments.ts';
import { createChance } from '../../../sim/random.ts';
import type { GuidedConfig } from '../../procedure/guided/guided-state.ts';
import { QUANTITIES } from '../../procedure/guided/quantities.ts';
import type { Crew } from '../run/simulated-session.ts';
import { type GuidedOptions, QUANTITY_OF } from './guided-options.ts';

const KIND_OF = { pressure: 'gauge', uv: 'radiometer', temperature: 'thermometer' } as const;
/** The reference's errors are drawn separately from the baths, which have the same purpose. */
const REFERENCE_SEED_STEP = 1_000_003;

export const guidedCrew = (
  { manual, seed }: Pick<GuidedOptions, 'manual' | 'seed'>,
  config: GuidedConfig,
): Crew => ({
  who: 'scripted person',
  join: (board) => {
    const reference = referenceOn(board, config, seed);
    if (manual) return reference === null ? {} : { reference };
    const hands = createCalibratingPerson(createChance(seed, 'technician'));
    const person = (timeS: number, display: Parameters<typeof hands.look>[1]): void => {
      const button = hands.look(timeS, display, reference ?? (() => null));
      if (button !== null) board.press(button);
    };
    return { person, ...(reference !== null && { reference }) };
  },
});

function referenceOn(
  board: SimulatedBoard,
  { procedure, reference }: GuidedConfig,
  seed: number,
): (() => number | null) | null {
  if (procedure === 'health' || reference === null) return null;
  const chance = createChance(seed + REFERENCE_SEED_STEP, 'reference');
  const instrument = createReferenceInstrument(KIND_OF[procedure], reference, chance);
  const { fromSI } = QUANTITIES[QUANTITY_OF[procedure]];
  return () => {
    const value = instrument.show(board.view().truth);
    return value === null ? null : fromSI(value);
  };
}
