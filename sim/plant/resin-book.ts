/**
 * Where the resin goes while air and break are stepped: from the injector into pit and break, past
 * the ring, off as foam, onto the glass. It joins the injector's book to the plant; the laws are in
 * `break/injector.ts`.
 */
import { liftM } from './air/foot.ts';
import { bookHands, fillPit, stepLosses, takeIntoBreak } from './break/injector.ts';
import { viscosityPaS } from './break/viscosity.ts';
import { breakK, breakResinM3, clampedFoot, type Place, type PlantState } from './plant-state.ts';
import type { Conditions } from './setup.ts';

/** Before the step: charges and lifts by hand, and the pit. Returns what the break holds, m3. */
export function takeHandsResin(
  { setup, resin, filling }: PlantState,
  place: Place,
  conditions: Conditions,
): number {
  const { injector, pitM3 } = place.world;
  if (!setup.charged) return 0;
  const charge = { ...injector, chargeM3: conditions.chargeM3 ?? injector.chargeM3 };
  bookHands(
    resin,
    charge,
    { charges: 1 + setup.recharges, lifts: setup.lifts },
    place.atmospherePa,
  );
  if (setup.sealed && !setup.injectorOff) fillPit(resin, pitM3);
  return breakResinM3(filling, place);
}

/** After it: what the break took or gave back, and what was lost. */
export function loseResin(
  state: PlantState,
  place: Place,
  conditions: Conditions,
  breakBeforeM3: number,
  dtS: number,
): void {
  const { setup, resin, filling, air } = state;
  const { world, atmospherePa } = place;
  if (!setup.charged || setup.injectorOff) return;
  takeIntoBreak(resin, breakResinM3(filling, place) - breakBeforeM3);
  const foot = clampedFoot(setup, world, conditions);
  if (foot === null) return;
  const gaugePa = air.injectorPa - atmospherePa;
  const over = {
    gaugePa,
    viscosityPaS: viscosityPaS(world.resin.viscosity, breakK(state)),
    grit: conditions.sealLeak,
    lifted: liftM(foot, gaugePa) > 0,
  };
  stepLosses(resin, world.injector, over, dtS);
}
