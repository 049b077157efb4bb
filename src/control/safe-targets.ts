/**
 * Whether the unit has come to rest after a stop: vented where the pressure is valid, otherwise
 * after enough time for the vent to have released everything. The caller decides what follows.
 */
import type { BatchState } from '../core/events.ts';
import type { Reading } from '../core/frame.ts';
import { isVented } from '../procedure/regulation.ts';

/** Without a valid pressure: by then an open vent has released this volume many times over. */
const VENT_SURELY_DONE_S = 3;
/** An abort ends even if the pressure does not follow the vent. */
const ABORT_ENDS_AFTER_S = 6;
/** By then the alarm for a vent without effect has been raised; what remains is a drifted zero. */
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
