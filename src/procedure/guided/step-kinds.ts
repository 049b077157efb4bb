/**
 * The kinds of step that the tables use: check, hand work, waiting until a reading is steady, the
 * moment at which a person reads the reference, entering the value, and the result. The steps
 * themselves are in `steps-*.ts`.
 */

import type { PointName, StepId } from '../../core/guided-events.ts';
import type { AirDemand } from '../regulation.ts';
import type { GuidedSettings } from './guided-settings.ts';
import { entryValueSI, startEntry } from './number-entry.ts';
import type { QuantityName } from './quantities.ts';
import { endOf, meanOf, slopeOf } from './steadiness.ts';
import type { GuidedStep, Progress, StepContext } from './step.ts';

export const vented = (): AirDemand => ({ air: 'vented' });
export const isolated = (): AirDemand => ({ air: 'isolated' });

/** Sensors and board must be sound for this long. */
const LOOK_S = 1;

/** A phase in which only the permanent alarms are armed. */
export const QUIET_PHASE = 'inspect';

const BASE = {
  quantity: null,
  windowS: () => 0,
  air: vented,
  lamp: false,
  alarmPhase: QUIET_PHASE,
} as const;

const onYes = (_: Progress, { answer }: StepContext): Partial<Progress> | null =>
  answer === 'yes' ? {} : null;

/** The start of every procedure: earlier trips are cleared, and sensors are checked. */
export function look(self: StepId, next: StepId): GuidedStep {
  return {
    ...BASE,
    kind: 'automatic',
    alarmPhase: 'self-test',
    // The alarm of the self-test watches how long it takes.
    deadlineS: () => null,
    resumeAt: self,
    done: ({ elapsedS }, { ready }) => (ready && elapsedS >= LOOK_S ? {} : null),
    next: () => next,
  };
}

export function handWork(self: StepId, next: StepId): GuidedStep {
  return {
    ...BASE,
    kind: 'confirm',
    deadlineS: ({ personS }) => personS,
    resumeAt: self,
    done: onYes,
    next: () => next,
  };
}

type Where = Partial<Pick<GuidedStep, 'air' | 'lamp' | 'alarmPhase'>> &
  Pick<GuidedStep, 'resumeAt'> & { readonly next: StepId };

interface Steady extends Where {
  readonly quantity: QuantityName;
  readonly windowS: (settings: GuidedSettings) => number;
  /** The slope below which a reading is steady; a share of the reading for light. */
  readonly isSteady: (slopePerS: number, mean: number, settings: GuidedSettings) => boolean;
  readonly deadlineS: (settings: GuidedSettings) => number;
  readonly leaves?: (progress: Progress, context: StepContext) => Partial<Progress>;
}

export function settle({ isSteady, leaves = () => ({}), next, ...rest }: Steady): GuidedStep {
  return {
    ...BASE,
    ...rest,
    kind: 'automatic',
    done: (progress, context) => {
      const { settings } = context;
      const slopePerS = slopeOf(progress.window, rest.windowS(settings));
      const mean = meanOf(progress.window, settings.averageS);
      if (slopePerS === null || mean === null) return null;
      return isSteady(slopePerS, mean.mean, settings) ? leaves(progress, context) : null;
    },
    next: () => next,
  };
}

/**
 * YES marks the moment at which the reference was read; the unit keeps its reading of that moment.
 */
export function readTogether(quantity: QuantityName, { next, ...where }: Where): GuidedStep {
  return {
    ...BASE,
    ...where,
    quantity,
    windowS: ({ averageS }) => averageS,
    kind: 'confirm',
    deadlineS: ({ readS }) => readS,
    done: ({ window }, { answer, settings }) => {
      const taken = endOf(window, settings.averageS);
      if (answer !== 'yes' || taken === null) return null;
      return { taken, entry: startEntry(quantity, taken.mean) };
    },
    next: () => next,
  };
}

/** Everything is switched off again: a person takes time over a number. */
export function enter(
  quantity: QuantityName,
  at: PointName,
  resumeAt: StepId,
  next: GuidedStep['next'],
): GuidedStep {
  return {
    ...BASE,
    kind: 'entry',
    quantity,
    deadlineS: ({ personS }) => personS,
    resumeAt,
    done: ({ entry, taken, points }, { answer }) => {
      if (answer !== 'yes' || entry === null || taken === null) return null;
      return {
        points: [...points, { at, reference: entryValueSI(entry), reading: taken }],
        taken: null,
        entry: null,
      };
    },
    next,
  };
}

export function result(self: StepId): GuidedStep {
  return {
    ...BASE,
    kind: 'question',
    deadlineS: ({ personS }) => personS,
    resumeAt: self,
    done: (_, { answer }) => (answer === null ? null : { kept: answer === 'yes' }),
    next: () => 'finish',
  };
}
