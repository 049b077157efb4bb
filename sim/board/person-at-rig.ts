/**
 * The person at the rig: what can be seen there, the buttons pressed, and the hand work that goes
 * with a press, with the mistakes that a fault makes of them. What a person does in each step is in
 * `sim/people/`.
 */
import type { Button } from '../../src/core/frame.ts';
import type { PhaseId } from '../../src/core/phases.ts';
import { applyToSight, faultOf, has } from '../faults/fault-effects.ts';
import { amountOf } from '../faults/fault-kinds.ts';
import { REMEDIES, type Remedy } from '../faults/faults.ts';
import { doGuidedHandWork } from '../people/guided-hands.ts';
import { doHandWork, workWhileShown } from '../people/hands.ts';
import { isPhase, readScreen, type Screen, type SeenStep } from '../people/screen-reading.ts';
import type { Sight } from '../people/technician.ts';
import { isDry } from '../plant/break/injector.ts';
import { looksClear } from '../plant/break/sight.ts';
import { surfaceTacky } from '../plant/light/cure.ts';
import { openChamber, timeOfS } from '../plant/plant.ts';
import { type Place, type PlantState, partUnder } from '../plant/plant-state.ts';
import type { Rig } from './rig.ts';

export function sightOf({ plant, place }: Rig): Sight {
  return {
    bubbling: plant.bubbling,
    clear: looksClear(plant.filling, place.world.break, partLookedAt(plant, place)),
    tacky: tackyOf(plant, place),
    level: plant.setup.pitFilled && !plant.setup.filmOn,
    resinLeft: !isDry(plant.resin),
  };
}

/** The part under the injector, and the whole crack once it is off. */
const partLookedAt = (plant: PlantState, place: Place): number | undefined =>
  plant.setup.injectorOff ? undefined : partUnder(plant, place);

/** For the uppermost resin: of several fields, the one that has set least. */
function tackyOf(
  { setup, cure, laterCures, pit }: PlantState,
  { world: { curing } }: Place,
): boolean | null {
  const uppermost = [setup.pitFilled ? pit : cure, ...laterCures];
  if (uppermost.some((one) => one.exposureJPerM2 <= curing.criticalJPerM2)) return null;
  return uppermost.some((one) => surfaceTacky(one, curing));
}

/** Lets the person do what is done while a step is shown, and a scripted one press a button. */
export function letPersonAct(rig: Rig): void {
  const screen = readScreen(rig.display);
  const step = screen?.kind === 'step' ? screen.step : null;
  if (step !== null && isPhase(step)) workWhileShown(rig.plant.setup, step);
  slip(rig, screen);
  if (has('walks-off', rig.active)) return;
  const says = applyToSight(sightOf(rig), rig.active);
  const button = rig.technician?.look(timeOfS(rig.plant), rig.display, says) ?? null;
  if (button !== null) pressButton(rig, button);
}

/** Fingers that press without a look, and do no work. */
function slip({ slips, fingers, active, plant, technician }: Rig, screen: Screen | null): void {
  const nowS = timeOfS(plant);
  const early = technician === null ? undefined : faultOf('yes-early', active);
  slips.seeStep(nowS, screen, early === undefined ? null : amountOf(early));
  fingers.push(...slips.due(nowS));
}

/** Faults that the hand work of a step repairs. */
const MENDED_IN: Readonly<Partial<Record<PhaseId, readonly Remedy[]>>> = {
  reseat: ['reseat'],
  recharge: ['recharge'],
  'dry-again': ['dry'],
  'test-again': ['reseat'],
  'foot-lifts': ['reseat'],
  'move-injector': ['reseat'],
  // Soft resin shows that there was none.
  scrape: ['film'],
};

/** A button, and the hand work that its press confirms. */
export function pressButton(rig: Rig, button: Button): void {
  const screen = readScreen(rig.display);
  rig.fingers.push(button);
  const double = faultOf('double-press', rig.active);
  if (double !== undefined) rig.slips.press(button, timeOfS(rig.plant) + amountOf(double));
  if (screen === null || !isWorkDone(button, screen)) return;
  if (screen.kind === 'held') rig.faults.mend(REMEDIES);
  if (screen.kind === 'step' && screen.step !== null) confirmStep(rig, screen.step);
}

/** YES comes after the work; film and shield are off the pit, however it is found. */
const isWorkDone = (button: Button, { kind, step }: Screen): boolean =>
  button === 'yes' || (button === 'no' && kind === 'step' && step === 'scrape');

function confirmStep(rig: Rig, step: SeenStep): void {
  if (!isPhase(step)) {
    doGuidedHandWork(rig.plant.setup, step);
    return;
  }
  if (has('hands-idle', rig.active)) return;
  const { setup } = rig.plant;
  const filmWasOn = setup.filmOn;
  doHandWork(setup, step);
  if (has('film-left-off', rig.active)) setup.filmOn = false;
  if (has('film-left-on', rig.active)) setup.filmOn ||= filmWasOn;
  const mended = MENDED_IN[step];
  if (mended === undefined) return;
  rig.faults.mend(mended);
  // No foot stands on the glass in any of these steps.
  openChamber(rig.plant);
}
