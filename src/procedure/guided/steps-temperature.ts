/**
 * The glass sensor in melting ice, which needs no reference instrument, and in a warm bath beside a
 * reference thermometer. A reading counts once its slope over the window is practically zero.
 */

import type { StepId } from '../../core/guided-events.ts';
import type { GuidedSettings } from './guided-settings.ts';
import { meanOf } from './steadiness.ts';
import type { GuidedStep, Progress, StepContext } from './step.ts';
import { enter, handWork, look, readTogether, result, settle } from './step-kinds.ts';

const STEADY = {
  quantity: 'temperature',
  windowS: ({ temperature }: GuidedSettings) => temperature.windowS,
  isSteady: (slopeKPerS: number, _: number, { temperature }: GuidedSettings) =>
    Math.abs(slopeKPerS) <= temperature.steadyKPerS,
  deadlineS: ({ temperature }: GuidedSettings) => temperature.steadyWithinS,
} as const;

function keepsIcePoint({ window, points }: Progress, { settings }: StepContext): Partial<Progress> {
  const mean = meanOf(window, settings.averageS);
  if (mean === null) return {};
  const { iceK, iceUncertaintyK } = settings.temperature;
  const reading = { ...mean, ownStandard: Math.hypot(mean.ownStandard, iceUncertaintyK) };
  return { points: [...points, { at: 'ice', reference: iceK, reading }] };
}

export const TEMPERATURE_STEPS = {
  'temperature-look': look('temperature-look', 'ice-place'),
  'ice-place': handWork('ice-place', 'ice-settle'),
  'ice-settle': settle({
    ...STEADY,
    resumeAt: 'ice-place',
    next: 'bath-place',
    leaves: keepsIcePoint,
  }),
  'bath-place': handWork('bath-place', 'bath-settle'),
  'bath-settle': settle({ ...STEADY, resumeAt: 'bath-place', next: 'bath-read' }),
  'bath-read': readTogether('temperature', { resumeAt: 'bath-place', next: 'bath-enter' }),
  'bath-enter': enter('temperature', 'bath', 'bath-place', () => 'temperature-result'),
  'temperature-result': result('temperature-result'),
} as const satisfies Partial<Record<StepId, GuidedStep>>;
