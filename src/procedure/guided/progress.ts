/**
 * The walk through a guided procedure: observes the current step, dials its number, and goes on to
 * the next once it is done. It reports when a step is late or the last is done; the controller
 * decides the effect on the outputs.
 */

import type { Reading } from '../../core/frame.ts';
import type { StepId } from '../../core/guided-events.ts';
import type { GuidedSettings } from './guided-settings.ts';
import { isEnterable, pressEntry, startEntry } from './number-entry.ts';
import type { QuantityName } from './quantities.ts';
import { addSample, NO_SAMPLES } from './steadiness.ts';
import type { GuidedStep, Progress, StepContext } from './step.ts';
import { HEALTH_STEPS } from './steps-health.ts';
import { PRESSURE_STEPS } from './steps-pressure.ts';
import { SWITCH_PROOF_STEPS } from './steps-switches.ts';
import { TEMPERATURE_STEPS } from './steps-temperature.ts';
import { UV_STEPS } from './steps-uv.ts';

export const GUIDED_STEPS: Readonly<Record<StepId, GuidedStep>> = {
  ...PRESSURE_STEPS,
  ...UV_STEPS,
  ...TEMPERATURE_STEPS,
  ...HEALTH_STEPS,
  ...SWITCH_PROOF_STEPS,
};

export const stepOf = ({ step }: Progress): GuidedStep => GUIDED_STEPS[step];

export interface Hands {
  /** Buttons on an entry step: NO lowers, MORE raises. */
  readonly dialled: readonly ('no' | 'more')[];
  /** A number typed at a console or given beforehand, SI; it replaces dialling. */
  readonly entered: number | null;
  readonly answer: 'yes' | 'no' | null;
}

/** The latest sample of each quantity, not smoothed; null while its channel is not valid. */
export type Sampled = Readonly<Record<QuantityName, number | null>>;

export interface World {
  readonly settings: GuidedSettings;
  readonly ready: boolean;
  readonly sampled: Sampled;
  readonly dtS: number;
}

export interface Walked {
  readonly progress: Progress;
  readonly lead: 'late' | 'finish' | null;
  /** A number that no reference of this kind can show. */
  readonly refusedNumber: boolean;
}

export function stepProgress(
  before: Progress,
  reading: Reading,
  hands: Hands,
  world: World,
): Walked {
  const { settings, ready } = world;
  const step = stepOf(before);
  const pressurePa = reading.pressurePa.ok ? reading.pressurePa.value : null;
  const dialled = dial(watch(before, step, reading, world), hands, reading.timeS);
  const { progress, refusedNumber, answer } = dialled;
  const context: StepContext = {
    settings,
    timeS: reading.timeS,
    pressurePa,
    answer,
    switches: reading.switches,
    ready,
  };
  const left = step.done(progress, context);
  if (left !== null) return { ...goOn({ ...progress, ...left }, step, settings), refusedNumber };
  const deadlineS = step.deadlineS(settings);
  const late = deadlineS !== null && progress.elapsedS > deadlineS;
  return { progress, lead: late ? 'late' : null, refusedNumber };
}

/** Disturbances from switching a valve or the lamp have decayed by then; they belong to no mean. */
const LEAD_IN_S = 2;

function watch(
  before: Progress,
  step: GuidedStep,
  { timeS }: Reading,
  { settings, sampled, dtS }: World,
): Progress {
  const elapsedS = before.elapsedS + dtS;
  const windowS = step.windowS(settings);
  const tooSoon = step.kind === 'automatic' && elapsedS < LEAD_IN_S;
  if (step.quantity === null || windowS === 0 || tooSoon) return { ...before, elapsedS };
  const value = sampled[step.quantity];
  return { ...before, elapsedS, window: addSample(before.window, timeS, value, windowS) };
}

function dial(
  progress: Progress,
  { dialled, entered, answer }: Hands,
  timeS: number,
): { progress: Progress; refusedNumber: boolean; answer: Hands['answer'] } {
  const { entry } = progress;
  if (entry === null) return { progress, refusedNumber: false, answer };
  if (entered !== null) {
    if (!isEnterable(entry.quantity, entered)) return { progress, refusedNumber: true, answer };
    const typed = { ...progress, entry: startEntry(entry.quantity, entered) };
    return { progress: typed, refusedNumber: false, answer: 'yes' };
  }
  const turned = dialled.reduce(
    (now, button) => pressEntry(now, button === 'more' ? 1 : -1, timeS),
    entry,
  );
  return { progress: { ...progress, entry: turned }, refusedNumber: false, answer };
}

function goOn(
  progress: Progress,
  step: GuidedStep,
  settings: GuidedSettings,
): Omit<Walked, 'refusedNumber'> {
  const to = step.next(progress, settings);
  if (to === 'finish') return { progress, lead: 'finish' };
  const entered = enterStep(progress, to);
  // The reading that was just found steady is the one that is compared with the reference.
  const goesOnReading = step.kind === 'automatic' && stepOf(entered).kind === 'confirm';
  const { window } = goesOnReading ? progress : entered;
  return { progress: { ...entered, window }, lead: null };
}

/** Where a held procedure resumes: readings from the part that is repeated are discarded. */
export function resumeProgress(progress: Progress): Progress {
  const { resumeAt } = stepOf(progress);
  return { ...enterStep(progress, resumeAt), taken: null, entry: null };
}

const enterStep = (progress: Progress, step: StepId): Progress => ({
  ...progress,
  step,
  elapsedS: 0,
  window: NO_SAMPLES,
});
