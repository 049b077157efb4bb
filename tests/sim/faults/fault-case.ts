/** How a kind of fault shows on a board with outputs held, against a twin without it. */
import type { BreakView } from '../../../sim/board/simulated-board.ts';
import type { Fault } from '../../../sim/faults/faults.ts';
import type { Actuators, Frame, Outputs } from '../../../src/core/frame.ts';
import { PRESSURISE } from '../board/lock-step.ts';

export interface Case {
  readonly fault?: Partial<Fault>;
  /** Faults that both have, from the start. */
  readonly alongside?: readonly Fault[];
  readonly outputs: Partial<Outputs>;
  readonly shieldOpen?: boolean;
  readonly airK?: number;
  /** What differs from a sound board while the fault acts, by at least so much. */
  readonly seen: (frame: Frame, view: BreakView) => number;
  readonly atLeast: number;
  /** Time after which at most half of the difference is left. */
  readonly recoverS: number;
  /** It leaves something behind for good. */
  readonly stays?: boolean;
}

export const truth =
  (name: 'pressurePa' | 'irradianceWPerM2' | 'glassK' | 'heatSinkK') =>
  (_: Frame, view: BreakView): number =>
    view.truth[name];
/** How far the host's clock is ahead of the board's. */
export const lagS = ({ timeS, hostTimeS }: Frame): number => (hostTimeS ?? Number.NaN) - timeS;
export const counts = (frame: Frame): number => frame.counts.pressure ?? Number.NaN;
/** Slow enough to stay below the over-pressure switch. */
export const PRESS_SLOWLY: Partial<Actuators> = { ...PRESSURISE, pumpRatio: 0.2 };
