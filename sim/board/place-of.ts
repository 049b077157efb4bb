/** Where a scenario takes place: its own break, and the resin of the bottle that was taken. */
import { amountOf } from '../faults/fault-kinds.ts';
import type { Fault } from '../faults/faults.ts';
import type { Scenario } from '../faults/scenario.ts';
import type { Curing } from '../plant/light/cure.ts';
import { createPlace, type Place } from '../plant/plant-state.ts';
import { createChance } from '../random.ts';

export function placeOf({ seed, atmospherePa, world, faults }: Scenario): Place {
  // No two breaks of one kind are alike.
  const spread = 1 + 0.1 * (createChance(seed, 'break').uniform() - 0.5);
  const gaps = world.break.gaps.map((gap) => ({ ...gap, escapeS: gap.escapeS * spread }));
  const curing = filledFrom(faults, world.curing);
  return createPlace(atmospherePa, { ...world, curing, break: { gaps } });
}

/** The resin of the bottle that was taken. */
function filledFrom(faults: readonly Fault[], stated: Curing): Curing {
  const wrong = faults.find(({ kind }) => kind === 'wrong-bottle');
  if (wrong === undefined) return stated;
  const times = amountOf(wrong);
  const criticalJPerM2 = stated.criticalJPerM2 * times;
  return { ...stated, criticalJPerM2, rate: stated.rate / times };
}
