/**
 * After the proof of the switches (`steps-switches.ts`), seal and pump on a closed test piece: how fast the pump reaches a set vacuum at full drive, how
 * deep it goes, and how the pressure rises once all valves are closed. It records the figures; the
 * care room compares them with earlier tests.
 */

import type { StepId } from '../../core/guided-events.ts';
import type { AirDemand } from '../regulation.ts';
import type { GuidedSettings } from './guided-settings.ts';
import { meanOf, slopeOf } from './steadiness.ts';
import type { GuidedStep, Progress, StepContext } from './step.ts';
import { handWork, isolated, look, QUIET_PHASE, result, settle } from './step-kinds.ts';
import { keepsAtmosphere } from './steps-pressure.ts';

/** A step that ends by itself is overdue only when its readings fail. */
const OVERDUE_S = 10;
/** A set-point that no pump reaches keeps the drive full. */
const fullDrive = (): AirDemand => ({ air: 'vacuum', setPointPa: 0 });

const windowS = ({ pressure }: GuidedSettings): number => pressure.windowS;

function pumpedDown(
  { elapsedS, health }: Progress,
  { pressurePa, settings }: StepContext,
): Partial<Progress> | null {
  const { pumpDownToPa, reachWithinS } = settings.health;
  if (pressurePa !== null && pressurePa <= pumpDownToPa) {
    return { health: { ...health, pumpDownS: elapsedS } };
  }
  // Failure of a weak pump to reach it is a result as well.
  return elapsedS < reachWithinS ? null : { health: { ...health, pumpDownS: null } };
}

/** At the ultimate pressure, or close to the unit's own limit on vacuum. */
function atBottom(
  { window, health }: Progress,
  { pressurePa, settings }: StepContext,
): Partial<Progress> | null {
  if (pressurePa !== null && pressurePa <= settings.health.lowestPa) {
    return { health: { ...health, ultimatePa: pressurePa, stoppedEarly: true } };
  }
  const slopePaPerS = slopeOf(window, windowS(settings));
  const mean = meanOf(window, settings.averageS);
  if (slopePaPerS === null || mean === null) return null;
  if (Math.abs(slopePaPerS) > settings.pressure.steadyPaPerS) return null;
  return { health: { ...health, ultimatePa: mean.mean } };
}

function watched(
  { elapsedS, window, health }: Progress,
  { settings, timeS }: StepContext,
): Partial<Progress> | null {
  const { settleS, watchS } = settings.health;
  if (elapsedS < settleS + watchS) return null;
  const closedAtS = timeS - elapsedS;
  const rise = window
    .map((sample) => ({ timeS: sample.timeS - closedAtS, value: sample.value }))
    .filter((sample) => sample.timeS >= settleS);
  return { health: { ...health, rise } };
}

export const HEALTH_STEPS = {
  'health-look': look('health-look', 'stop-press'),
  'blank-fit': handWork('blank-fit', 'zero-settle'),
  'zero-settle': settle({
    quantity: 'pressure',
    windowS,
    isSteady: (slopePaPerS, _, { pressure }) => Math.abs(slopePaPerS) <= pressure.steadyPaPerS,
    deadlineS: ({ pressure }) => pressure.steadyWithinS,
    resumeAt: 'zero-settle',
    next: 'pump-down',
    leaves: keepsAtmosphere,
  }),
  'pump-down': {
    kind: 'automatic',
    quantity: 'pressure',
    windowS: () => 0,
    air: fullDrive,
    lamp: false,
    alarmPhase: 'evacuate',
    deadlineS: ({ health }) => health.reachWithinS + OVERDUE_S,
    resumeAt: 'zero-settle',
    done: pumpedDown,
    next: () => 'pump-ultimate',
  },
  'pump-ultimate': {
    kind: 'automatic',
    quantity: 'pressure',
    windowS,
    air: fullDrive,
    lamp: false,
    // At the ultimate pressure a pump without effect is normal.
    alarmPhase: QUIET_PHASE,
    deadlineS: ({ health }) => health.ultimateWithinS,
    resumeAt: 'zero-settle',
    done: atBottom,
    next: () => 'leak-watch',
  },
  'leak-watch': {
    kind: 'automatic',
    quantity: 'pressure',
    windowS: ({ health }) => health.settleS + health.watchS,
    air: isolated,
    lamp: false,
    alarmPhase: 'seal-watch',
    deadlineS: ({ health }) => health.settleS + health.watchS + OVERDUE_S,
    resumeAt: 'zero-settle',
    done: watched,
    next: () => 'health-result',
  },
  'health-result': result('health-result'),
} as const satisfies Partial<Record<StepId, GuidedStep>>;
