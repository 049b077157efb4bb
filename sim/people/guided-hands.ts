/**
 * What hands do at the bench when a step of a guided procedure is confirmed: a gauge or a blank
 * plate closes the hose, a radiometer replaces the glass, the glass sensor goes into a bath. Steps
 * are identified by the marks on the display.
 */
import type { Setup } from '../plant/setup.ts';
import type { GuidedMark } from './screen-reading.ts';

/** Gauge and blank plate close the chamber like a sound seal. */
const CLOSED: Partial<Setup> = { sealed: true, hoseOn: true };

export const GUIDED_HAND_WORK: Readonly<Partial<Record<GuidedMark, Partial<Setup>>>> = {
  P2: CLOSED,
  U2: { shieldClosed: false, filmOn: false },
  U3: { shieldClosed: true },
  T2: { bath: 'ice' },
  T4: { bath: 'warm' },
  T8: { bath: null },
  H2: CLOSED,
};

export function doGuidedHandWork(setup: Setup, mark: GuidedMark): void {
  Object.assign(setup, GUIDED_HAND_WORK[mark]);
}
