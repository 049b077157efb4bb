/**
 * How near the break is to running: the stress across its longest gap from heat, and the pressure
 * in it, at its tip. It depends on the state alone; reactions are decided elsewhere.
 */
import { lengthM } from './break/break.ts';
import { DEMO_SPOT } from './pane/laminate.ts';
import {
  createPaneStress,
  hoopPa,
  setPaneStress,
  type TipDanger,
  tipDanger,
} from './pane/stress.ts';
import type { Place, PlantState } from './plant-state.ts';

/**
 * The leg lies in the spot with its tip at the rim, where the hoop tension of a hot spot is
 * greatest; through the thickness the surrounding pane holds it flat. Both load the worst place.
 */
export function tipDangerOf({ pane, air }: PlantState, { world, atmospherePa }: Place): TipDanger {
  const stress = createPaneStress(pane);
  setPaneStress(stress, pane, world.pane, 'flat');
  const hoop = hoopPa(world.pane, pane.spotOverPaneK, DEMO_SPOT.spotRadiusM, DEMO_SPOT.spotRadiusM);
  return tipDanger(world.pane, {
    legM: lengthM(world.break),
    acrossPa: Math.max(0, hoop) + stress.tensionPa,
    insideGaugePa: Math.max(0, air.injectorPa - atmospherePa),
  });
}
