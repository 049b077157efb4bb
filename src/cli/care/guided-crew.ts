/**
 * The people and instruments at the simulated bench in a guided procedure: reference instruments
 * and, unless a real person uses the keyboard, a scripted person who reads them.
 */

import { createCalibratingPerson } from '../../../sim/people/calibrating-person.ts';
import { createReferenceInstrument } from '../../../sim/people/reference-instruments.ts';
import { createChance } from '../../../sim/random.ts';
import type { GuidedConfig } from '../../procedure/guided/guided-state.ts';
import { QUANTITIES } from '../../procedure/guided/quantities.ts';
import type { Crew, Hands } from '../run/model-session.ts';
import { type GuidedOptions, QUANTITY_OF } from './guided-options.ts';

const KIND_OF = { pressure: 'gauge', uv: 'radiometer', temperature: 'thermometer' } as const;
/** The reference's errors are drawn separately from the baths, which have the same purpose. */
const REFERENCE_SEED_STEP = 1_000_003;

export const guidedCrew = (
  { manual, seed }: Pick<GuidedOptions, 'manual' | 'seed'>,
  config: GuidedConfig,
): Crew => ({
  who: 'person',
  join: (session) => {
    const reference = referenceOn(session, config, seed);
    if (manual) return reference === null ? {} : { reference };
    const hands = createCalibratingPerson(createChance(seed, 'technician'));
    const person = (timeS: number, display: Parameters<typeof hands.look>[1]): void => {
      const button = hands.look(timeS, display, reference ?? (() => null));
      if (button !== null) session.press(button);
    };
    return { person, ...(reference !== null && { reference }) };
  },
});

function referenceOn(
  session: Hands,
  { procedure, reference }: GuidedConfig,
  seed: number,
): (() => number | null) | null {
  if (procedure === 'health' || reference === null) return null;
  const chance = createChance(seed + REFERENCE_SEED_STEP, 'reference');
  const instrument = createReferenceInstrument(KIND_OF[procedure], reference, chance);
  const { fromSI } = QUANTITIES[QUANTITY_OF[procedure]];
  return () => {
    const value = instrument.show(session.view().truth);
    return value === null ? null : fromSI(value);
  };
}
