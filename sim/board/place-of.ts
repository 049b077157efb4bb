/**
 * Where a scenario takes place: its own break, the resin of the bottle that was taken, and what the
 * light loses on its way to it.
 */
import { amountOf } from '../faults/fault-kinds.ts';
import type { Fault } from '../faults/faults.ts';
import type { Scenario } from '../faults/scenario.ts';
import type { Curing } from '../plant/light/cure.ts';
import { createPlace, type Place } from '../plant/plant-state.ts';
import { createChance } from '../random.ts';
import { drawWayToResin } from './light-errors.ts';

export function placeOf({ seed, atmospherePa, world, light, faults }: Scenario): Place {
  // No two breaks of one kind are alike.
  const spread = 1 + 0.1 * (createChance(seed, 'break').uniform() - 0.5);
  const gaps = world.break.gaps.map((gap) => ({ ...gap, fingerRatio: gap.fingerRatio * spread }));
  const curing = filledFrom(faults, world.curing);
  const way = drawWayToResin(createChance(seed, 'way'), light);
  const filmTransmission = Math.min(1, world.lamp.filmTransmission * way.filmFactor);
  const lamp = { ...world.lamp, filmTransmission };
  return createPlace(atmospherePa, { ...world, lamp, curing, break: { gaps } }, way);
}

/** The resin of the bottle that was taken. */
function filledFrom(faults: readonly Fault[], stated: Curing): Curing {
  const wrong = faults.find(({ kind }) => kind === 'wrong-bottle');
  if (wrong === undefined) return stated;
  const times = amountOf(wrong);
  const criticalJPerM2 = stated.criticalJPerM2 * times;
  return { ...stated, criticalJPerM2, rate: stated.rate / times };
}
