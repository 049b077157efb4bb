/**
 * What one step of a guided procedure is, as data, and the state that all steps share. The rows are
 * in `steps-*.ts`, the walk from one to the next in `progress.ts`. Alarms and guard know phases of a
 * repair only: each step names the phase whose alarms and interlocks hold in it.
 */
import type { PhaseId } from '../phases.ts';
import type { GuidedSettings } from './guided-settings.ts';
import type { Entry } from './number-entry.ts';
import type { QuantityName } from './quantities.ts';
import { type Mean, NO_SAMPLES, type Window } from './steadiness.ts';

export const PROCEDURES = ['pressure', 'uv', 'temperature', 'health'] as const;
export type ProcedureName = (typeof PROCEDURES)[number];

/** Steps with the mark that the display shows, a letter for the procedure and a number. */
export const STEP_MARKS = {
  'pressure-look': 'P1',
  'gauge-join': 'P2',
  'air-settle': 'P3',
  'air-read': 'P4',
  'air-enter': 'P5',
  'vacuum-pull': 'P6',
  'vacuum-settle': 'P7',
  'vacuum-read': 'P8',
  'vacuum-enter': 'P9',
  'over-press': 'P10',
  'over-settle': 'P11',
  'over-read': 'P12',
  'over-enter': 'P13',
  'pressure-result': 'P14',
  'uv-look': 'U1',
  'radiometer-place': 'U2',
  'shield-close': 'U3',
  'light-settle': 'U4',
  'light-read': 'U5',
  'light-enter': 'U6',
  'uv-result': 'U7',
  'temperature-look': 'T1',
  'ice-place': 'T2',
  'ice-settle': 'T3',
  'bath-place': 'T4',
  'bath-settle': 'T5',
  'bath-read': 'T6',
  'bath-enter': 'T7',
  'temperature-result': 'T8',
  'health-look': 'H1',
  'blank-fit': 'H2',
  'zero-settle': 'H3',
  'pump-down': 'H4',
  'pump-ultimate': 'H5',
  'leak-watch': 'H6',
  'health-result': 'H7',
} as const;
export type StepId = keyof typeof STEP_MARKS;
export const STEP_IDS = Object.keys(STEP_MARKS) as readonly StepId[];

/** `confirm` waits for YES, `entry` for a number and YES, `question` for YES or NO, `automatic` for the world. */
export type StepKind = 'confirm' | 'entry' | 'question' | 'automatic';

export type GuidedAir =
  | { readonly air: 'vented' }
  | { readonly air: 'isolated' }
  | { readonly air: 'vacuum' | 'pressure'; readonly setPointPa: number };

export interface Point {
  readonly at: PointName;
  /** What the reference shows, SI. */
  readonly reference: number;
  readonly reading: Mean;
}

/** `air` and `vacuum` fix the pressure's line, `over` only tries it. */
export type PointName = 'air' | 'vacuum' | 'over' | 'light' | 'ice' | 'bath';

export interface Health {
  readonly pumpDownS: number | null;
  readonly ultimatePa: number | null;
  /** The pump was stopped at the lowest pressure allowed and could have gone deeper. */
  readonly stoppedEarly: boolean;
  /** Readings of the closed chamber, s since it was closed. */
  readonly rise: Window;
}

export interface Progress {
  readonly step: StepId;
  readonly elapsedS: number;
  readonly window: Window;
  readonly atmospherePa: number | null;
  /** The unit's own reading at the moment at which the reference was read. */
  readonly taken: Mean | null;
  readonly entry: Entry | null;
  readonly points: readonly Point[];
  readonly health: Health;
  /** The person's last word on the result; null before it. */
  readonly kept: boolean | null;
}

export const NO_HEALTH: Health = {
  pumpDownS: null,
  ultimatePa: null,
  stoppedEarly: false,
  rise: NO_SAMPLES,
};

export const progressAt = (step: StepId): Progress => ({
  step,
  elapsedS: 0,
  window: NO_SAMPLES,
  atmospherePa: null,
  taken: null,
  entry: null,
  points: [],
  health: NO_HEALTH,
  kept: null,
});

export interface StepContext {
  readonly settings: GuidedSettings;
  readonly timeS: number;
  /** Null while it cannot be believed. */
  readonly pressurePa: number | null;
  readonly answer: 'yes' | 'no' | null;
  /** Every sensor that the procedure needs is believable and nothing of the board has tripped. */
  readonly ready: boolean;
}

export interface GuidedStep {
  readonly kind: StepKind;
  /** What is watched, shown, and entered. */
  readonly quantity: QuantityName | null;
  readonly windowS: (settings: GuidedSettings) => number;
  readonly air: (progress: Progress, settings: GuidedSettings) => GuidedAir;
  readonly lamp: boolean;
  readonly alarmsOf: PhaseId;
  /** Later than this the procedure is stopped; why is in the catalogue. */
  readonly deadlineS: (settings: GuidedSettings) => number;
  /** Where a held procedure goes on. */
  readonly resumeAt: StepId;
  /** What the step leaves behind once it is done; null while it is not. */
  readonly done: (progress: Progress, context: StepContext) => Partial<Progress> | null;
  readonly next: (progress: Progress, settings: GuidedSettings) => StepId | 'finish';
}
