/**
 * Whether the unit has come to rest after it was told to: vented where the pressure can be believed,
 * and otherwise long enough for the vent to have let everything down. What follows is decided by
 * whoever waits for it.
 */
import type { BatchState } from '../core/events.ts';
import type { Reading } from '../core/frame.ts';
import { isVented } from '../procedure/regulation.ts';

/** Without a believable pressure, an open vent has let down this volume many times over by then. */
const VENT_SURELY_DONE_S = 3;
/** An abort that the vent does not follow still ends. */
const ABORT_ENDS_AFTER_S = 6;
/** By then a vent that does not follow has raised its alarm; what is left is a drifted zero. */
const REST_ENDS_AFTER_S = 10;

export interface Resting {
  readonly batch: BatchState;
  readonly ventOpenForS: number;
  readonly atmospherePa: number | null;
}

export function isAtRest(
  { batch, ventOpenForS, atmospherePa }: Resting,
  { pressurePa }: Reading,
): boolean {
  if (batch === 'aborting' && ventOpenForS >= ABORT_ENDS_AFTER_S) return true;
  if (!pressurePa.ok || atmospherePa === null) return ventOpenForS >= VENT_SURELY_DONE_S;
  return isVented(pressurePa.value, atmospherePa) || ventOpenForS >= REST_ENDS_AFTER_S;
}
