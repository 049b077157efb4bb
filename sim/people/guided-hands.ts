/**
 * What hands do at the bench when a step of a guided procedure is confirmed: a gauge or a blank
 * plate closes the hose, a radiometer replaces the glass, the glass sensor goes into a bath, and the
 * stop and a hand pump on the pressure switch are worked for their proof.
 */

import type { StepId } from '../../src/core/guided-events.ts';
import type { Setup } from '../plant/setup.ts';

const CLOSED: Partial<Setup> = { plugged: true, hoseOn: true };

export const GUIDED_HAND_WORK: Readonly<Partial<Record<StepId, Partial<Setup>>>> = {
  'gauge-join': CLOSED,
  'radiometer-place': { shieldClosed: false, filmOn: false },
  'shield-close': { shieldClosed: true },
  'ice-place': { bath: 'ice' },
  'bath-place': { bath: 'warm' },
  'temperature-result': { bath: null },
  'stop-press': { stopPressed: true },
  'stop-release': { stopPressed: false },
  'switch-above': { switchPumped: true },
  'switch-drain': { switchPumped: false },
  'blank-fit': CLOSED,
};

export function doGuidedHandWork(setup: Setup, step: StepId): void {
  Object.assign(setup, GUIDED_HAND_WORK[step]);
}
