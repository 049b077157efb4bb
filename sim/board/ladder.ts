/**
 * The button ladder at the bench, by Ohm's law: whichever buttons are down, what the wire gives with
 * the faults that act on it, and what the board reads in it. Pull-up, resistors and bands are those
 * of the pin map.
 */
import {
  BUTTONS,
  type Button,
  FULL_SCALE_COUNTS,
  type LadderReading,
} from '../../src/core/frame.ts';
import { BUTTON_LADDER } from '../../wiring/pin-map.ts';
import { type LadderFaults, ladderFaultsOf } from '../faults/fault-effects.ts';
import type { Fault } from '../faults/faults.ts';

/** The share of the reference that the wire gives with these buttons down, 0 to 1. */
export function ladderRatio(down: readonly Button[], faults: readonly Fault[]): number {
  const own = ladderFaultsOf(faults);
  if (own.shorted) return 0;
  if (own.open) return 1;
  const { pullUpOhm, restOhm } = BUTTON_LADDER;
  const siemens = [...own.stuck, ...down].reduce(
    (sum, button) => sum + 1 / ohmOf(button, own),
    1 / restOhm + 1 / own.leakOhm,
  );
  return 1 / (1 + pullUpOhm * siemens);
}

const ohmOf = (button: Button, { noOhmTimes, noReadsYes }: LadderFaults): number => {
  const { ohm } = BUTTON_LADDER;
  if (button !== 'no') return ohm[button];
  return noReadsYes ? ohm.yes : noOhmTimes * ohm.no;
};

export function ladderReading(down: readonly Button[], faults: readonly Fault[]): LadderReading {
  const counts = Math.round(FULL_SCALE_COUNTS * ladderRatio(down, faults));
  const { bands } = BUTTON_LADDER;
  const steps = Object.keys(bands) as (keyof typeof bands)[];
  const within = steps.find(
    (step) => counts >= bands[step].lowest && counts <= bands[step].highest,
  );
  return within ?? 'between';
}

export interface Buttons {
  readonly pressed: readonly Button[];
  /** What the ladder has settled on. */
  readonly ladder: LadderReading;
}

/**
 * The presses that a board counts, and the reading that it shows, when these fingers pressed one
 * after the other. A button counts when it comes out of rest, HOLD whatever else is down.
 */
export function readFingers(
  before: LadderReading,
  fingers: readonly Button[],
  faults: readonly Fault[],
): Buttons & { readonly rest: LadderReading } {
  const rest = ladderReading([], faults);
  const touched = fingers.flatMap((finger) => [ladderReading([finger], faults), rest]);
  const pressed: Button[] = [];
  let now = before;
  for (const step of [rest, ...touched]) {
    if (step !== now && isButton(step) && (step === 'hold' || now === 'released')) {
      pressed.push(step);
    }
    now = step;
  }
  // A finger that has just pressed is still down in the frame that tells of it.
  return { pressed, ladder: touched.at(-2) ?? rest, rest };
}

const isButton = (step: LadderReading): step is Button => BUTTONS.some((name) => name === step);
