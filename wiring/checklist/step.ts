/**
 * A step of the bring-up checklist and how it is judged: from the samples since the step began, the
 * outputs last written, and a person's answer. Pure; the command asks people, writes outputs and
 * keeps time. A step never decides on an invalid value.
 */
import {
  type Actuators,
  type DisplayLines,
  type Frame,
  type Outputs,
  SAFE,
  type Trip,
} from '../../src/core/frame.ts';

/** A frame with the meaning of its counts; null where a value is not valid. */
export interface Sample {
  readonly frame: Frame;
  readonly pressurePa: number | null;
  readonly irradianceWPerM2: number | null;
  readonly glassK: number | null;
  readonly heatSinkK: number | null;
  readonly supplyV: number | null;
}
export type Quantity = Exclude<keyof Sample, 'frame'>;

export interface StepContext {
  /** Since the step began, oldest first; never empty. */
  readonly samples: readonly Sample[];
  /** What was last written; null before the first write and while the step asks for silence. */
  readonly commanded: Outputs | null;
  /** The answer to the step's question; null while there is none. */
  readonly answer: 'yes' | 'no' | null;
}

export type Verdict = 'waiting' | 'passed' | 'failed';

export interface Step {
  readonly id: string;
  readonly title: string;
  readonly caution: string | null;
  /** For the person, imperative. */
  readonly todo: string;
  /** What the unit does meanwhile, in words; `outputs` does it. */
  readonly meanwhile: string;
  /** Written every tick; null asks for silence: write nothing. */
  readonly outputs: (samples: readonly Sample[]) => Outputs | null;
  readonly expected: string;
  /** Asked while the step runs; null where the samples alone decide. */
  readonly question: string | null;
  readonly verdict: (context: StepContext) => Verdict;
  /** Trips that belong to the step; any other trip ends it. */
  readonly ownTrips: readonly Trip[];
  readonly timeoutS: number;
  readonly onFailure: string;
}

export interface Judgement {
  readonly verdict: Verdict;
  /** Why it failed, for a person; empty otherwise. */
  readonly why: string;
}

const SILENT_S = 0.5;

const failed = (why: string): Judgement => ({ verdict: 'failed', why });

export function judgeStep(step: Step, context: StepContext): Judgement {
  const latest = lastOf(context.samples);
  if (latest === undefined) return { verdict: 'waiting', why: '' };
  const { link, timeS, sampledAtS } = latest.frame;
  // A busy computer may miss a frame or two; a disconnected board stays silent.
  if (link === 'mute' && timeS - sampledAtS > SILENT_S) {
    return failed('The board sends nothing.');
  }
  const strange = latest.frame.trips.filter((trip) => !step.ownTrips.includes(trip));
  if (strange.length > 0) return failed(`The board has tripped: ${strange.join(', ')}.`);
  const verdict = step.verdict(context);
  if (verdict === 'failed') return failed(`Expected: ${step.expected}`);
  if (verdict === 'waiting' && elapsedS(context.samples) > step.timeoutS) {
    return failed(`Not seen within ${step.timeoutS} s: ${step.expected}`);
  }
  return { verdict, why: '' };
}

// Building blocks of the steps.

export const BLANK: DisplayLines = ['', '', '', ''];
export const QUIET: Outputs = {
  ...SAFE,
  buzzer: 'off',
  status: { colour: 'off', flashing: false },
  display: BLANK,
  clearTrips: false,
};
export const quiet = (): Outputs => QUIET;
export const acting = (change: Partial<Actuators>): Outputs => ({ ...QUIET, ...change });

export const lastOf = (samples: readonly Sample[]): Sample | undefined => samples.at(-1);

export function elapsedS(samples: readonly Sample[]): number {
  const first = samples[0];
  const last = lastOf(samples);
  return first && last ? last.frame.timeS - first.frame.timeS : 0;
}

/** The samples from the first one on for which `holds` is true; empty when there is none. */
export function from(
  samples: readonly Sample[],
  holds: (sample: Sample) => boolean,
): readonly Sample[] {
  const at = samples.findIndex(holds);
  return at < 0 ? [] : samples.slice(at);
}

/** The part of `samples` later than `startS` and not later than `endS`, relative to the first. */
export function between(
  samples: readonly Sample[],
  startS: number,
  endS: number,
): readonly Sample[] {
  const firstS = samples[0]?.frame.timeS ?? 0;
  return samples.filter(
    ({ frame }) => frame.timeS - firstS > startS && frame.timeS - firstS <= endS,
  );
}

export const values = (samples: readonly Sample[], quantity: Quantity): readonly number[] =>
  samples.flatMap((sample) => sample[quantity] ?? []);

/** Whether one condition was true and later another: for press and release, open and close. */
export function thenLater(
  samples: readonly Sample[],
  ...stages: readonly ((sample: Sample) => boolean)[]
): boolean {
  return stages.reduce((rest, holds) => from(rest, holds), samples).length > 0;
}

/** The person alone decides. */
export const byAnswer = ({ answer }: StepContext): Verdict =>
  answer === null ? 'waiting' : answer === 'yes' ? 'passed' : 'failed';

export const passedWhen = (holds: boolean): Verdict => (holds ? 'passed' : 'waiting');
