/**
 * What the watches on heat sink and glass have in common: when the lamp counts as switched off, how
 * a reading is smoothed, and the rise that each of them has seen.
 */

/** A pause of the lamp that does not count as switched off, s. */
const PAUSE_S = 3;

export interface LampSeen {
  /** The lamp is on, its short pauses included. */
  readonly lit: boolean;
  /** How long the lamp has been dark, s. */
  readonly darkS: number;
}

export function lampSeen(before: LampSeen, lampOn: boolean, dtS: number): LampSeen {
  const darkS = lampOn ? 0 : before.darkS + dtS;
  return { lit: lampOn || (before.lit && darkS < PAUSE_S), darkS };
}

/** Smoothing of first order, for steps far below its time constant. */
export const toward = (fromK: number, toK: number, dtS: number, timeConstantS: number): number =>
  fromK + ((toK - fromK) * dtS) / (timeConstantS + dtS);

export interface Rise {
  readonly seenK: number;
  readonly usualK: number;
}
