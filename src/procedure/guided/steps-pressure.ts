/**
 * Pressure against a reference gauge: the air and a held vacuum determine the line, and a point
 * above the atmosphere checks it. The valves are closed while both are read, so that pump and
 * regulation move nothing, and the chamber is vented while the number is entered.
 */

import type { StepId } from '../../core/guided-events.ts';
import type { AirDemand } from '../regulation.ts';
import type { GuidedSettings } from './guided-settings.ts';
import { meanOf } from './steadiness.ts';
import type { GuidedStep, Progress, StepContext } from './step.ts';
import { enter, handWork, isolated, look, readTogether, result, settle } from './step-kinds.ts';

/** The regulator comes this close to a set-point; then the reading only has to be steady. */
const REACHED_WITHIN_PA = 1_000;

const toVacuum = (_: Progress, { pressure }: GuidedSettings): AirDemand => ({
  air: 'vacuum',
  setPointPa: pressure.heldPa,
});

function toOver({ atmospherePa }: Progress, { pressure }: GuidedSettings): AirDemand {
  if (atmospherePa === null) return { air: 'vented' };
  return { air: 'pressure', setPointPa: atmospherePa + pressure.checkGaugePa };
}

const reached =
  (air: (progress: Progress, settings: GuidedSettings) => AirDemand) =>
  (progress: Progress, { pressurePa, settings }: StepContext): Partial<Progress> | null => {
    const demand = air(progress, settings);
    if (pressurePa === null || !('setPointPa' in demand)) return null;
    return Math.abs(pressurePa - demand.setPointPa) <= REACHED_WITHIN_PA ? {} : null;
  };

const approach = (
  alarmPhase: 'evacuate' | 'pressurise',
  air: (progress: Progress, settings: GuidedSettings) => AirDemand,
  self: StepId,
  next: StepId,
): GuidedStep => ({
  kind: 'automatic',
  quantity: 'pressure',
  windowS: () => 0,
  air,
  lamp: false,
  alarmPhase,
  deadlineS: ({ pressure }) => pressure.reachWithinS,
  resumeAt: self,
  done: reached(air),
  next: () => next,
});

const STEADY = {
  quantity: 'pressure',
  windowS: ({ pressure }: GuidedSettings) => pressure.windowS,
  isSteady: (slopePaPerS: number, _: number, { pressure }: GuidedSettings) =>
    Math.abs(slopePaPerS) <= pressure.steadyPaPerS,
  deadlineS: ({ pressure }: GuidedSettings) => pressure.steadyWithinS,
} as const;

/** The air pressure as read by the unit: the zero for alarms and set-points. */
export const keepsAtmosphere = (
  { window }: Progress,
  { settings }: StepContext,
): Partial<Progress> => ({ atmospherePa: meanOf(window, settings.averageS)?.mean ?? null });

const CLOSED = { air: isolated, alarmPhase: 'seal-watch' } as const;

export const PRESSURE_STEPS = {
  'pressure-look': look('pressure-look', 'gauge-join'),
  'gauge-join': handWork('gauge-join', 'air-settle'),
  'air-settle': settle({
    ...STEADY,
    resumeAt: 'air-settle',
    next: 'air-read',
    leaves: keepsAtmosphere,
  }),
  'air-read': readTogether('pressure', { resumeAt: 'air-settle', next: 'air-enter' }),
  'air-enter': enter('pressure', 'air', 'air-settle', () => 'vacuum-pull'),
  'vacuum-pull': approach('evacuate', toVacuum, 'vacuum-pull', 'vacuum-settle'),
  'vacuum-settle': settle({
    ...STEADY,
    ...CLOSED,
    resumeAt: 'vacuum-pull',
    next: 'vacuum-read',
  }),
  'vacuum-read': readTogether('pressure', {
    ...CLOSED,
    resumeAt: 'vacuum-pull',
    next: 'vacuum-enter',
  }),
  'vacuum-enter': enter('pressure', 'vacuum', 'vacuum-pull', () => 'over-press'),
  'over-press': approach('pressurise', toOver, 'over-press', 'over-settle'),
  'over-settle': settle({ ...STEADY, ...CLOSED, resumeAt: 'over-press', next: 'over-read' }),
  'over-read': readTogether('pressure', { ...CLOSED, resumeAt: 'over-press', next: 'over-enter' }),
  'over-enter': enter('pressure', 'over', 'over-press', () => 'pressure-result'),
  'pressure-result': result('pressure-result'),
} as const satisfies Partial<Record<StepId, GuidedStep>>;
