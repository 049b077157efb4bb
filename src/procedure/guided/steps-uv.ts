/**
 * UV light against a reference radiometer in place of the glass: full drive until the droop of the
 * warming lamp has slowed, both read at one moment, lamp off, number entered; then repeated.
 */

import type { StepId } from '../../core/guided-events.ts';
import type { GuidedSettings } from './guided-settings.ts';
import type { GuidedStep } from './step.ts';
import { enter, handWork, look, readTogether, result, settle } from './step-kinds.ts';

const LIT = { lamp: true, alarmPhase: 'cure' } as const;

export const UV_STEPS = {
  'uv-look': look('uv-look', 'radiometer-place'),
  'radiometer-place': handWork('radiometer-place', 'shield-close'),
  'shield-close': handWork('shield-close', 'light-settle'),
  'light-settle': settle({
    ...LIT,
    quantity: 'light',
    windowS: ({ light }: GuidedSettings) => light.windowS,
    isSteady: (slopePerS, mean, { light }) =>
      mean > 0 && Math.abs(slopePerS) <= light.steadyPerS * mean,
    deadlineS: ({ light }) => light.steadyWithinS,
    resumeAt: 'radiometer-place',
    next: 'light-read',
  }),
  'light-read': readTogether('light', {
    ...LIT,
    resumeAt: 'radiometer-place',
    next: 'light-enter',
  }),
  'light-enter': enter('light', 'light', 'radiometer-place', ({ points }, { light }) =>
    points.length < light.readings ? 'light-settle' : 'uv-result',
  ),
  'uv-result': result('uv-result'),
} as const satisfies Partial<Record<StepId, GuidedStep>>;
