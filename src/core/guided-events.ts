/**
 * The vocabulary of the guided procedures, beside that of a repair in `events.ts`: their names,
 * their steps with display marks, and their own events. This file decides nothing.
 */

export const PROCEDURES = ['pressure', 'uv', 'temperature', 'health'] as const;
export type ProcedureName = (typeof PROCEDURES)[number];

/** The steps of each procedure in order, which numbers them on the display. */
const STEPS = {
  pressure: [
    'pressure-look',
    'gauge-join',
    'air-settle',
    'air-read',
    'air-enter',
    'vacuum-pull',
    'vacuum-settle',
    'vacuum-read',
    'vacuum-enter',
    'over-press',
    'over-settle',
    'over-read',
    'over-enter',
    'pressure-result',
  ],
  uv: [
    'uv-look',
    'radiometer-place',
    'shield-close',
    'light-settle',
    'light-read',
    'light-enter',
    'uv-result',
  ],
  temperature: [
    'temperature-look',
    'ice-place',
    'ice-settle',
    'bath-place',
    'bath-settle',
    'bath-read',
    'bath-enter',
    'temperature-result',
  ],
  health: [
    'health-look',
    'stop-press',
    'stop-release',
    'switch-below',
    'switch-above',
    'switch-drain',
    'switch-look',
    'blank-fit',
    'zero-settle',
    'pump-down',
    'pump-ultimate',
    'leak-watch',
    'health-result',
  ],
} as const satisfies Readonly<Record<ProcedureName, readonly string[]>>;
export type StepId = (typeof STEPS)[ProcedureName][number];
export const STEP_IDS: readonly StepId[] = PROCEDURES.flatMap((name) => STEPS[name]);

const LETTERS: Readonly<Record<ProcedureName, string>> = {
  pressure: 'P',
  uv: 'U',
  temperature: 'T',
  health: 'H',
};

/** A step's mark on the display, a letter for the procedure and a number: never used as a key. */
export const STEP_MARKS = Object.fromEntries(
  PROCEDURES.flatMap((name) =>
    STEPS[name].map((step, place) => [step, `${LETTERS[name]}${place + 1}`]),
  ),
) as Readonly<Record<StepId, string>>;

export interface Mean {
  readonly mean: number;
  /** Standard deviation of single readings. */
  readonly standardDeviation: number;
  readonly n: number;
  /** Standard uncertainty of the value, beyond that of the mean of `n`. */
  readonly ownStandard: number;
}

export interface Point {
  readonly at: PointName;
  /** Reference value, SI. */
  readonly reference: number;
  readonly reading: Mean;
}

/** `air` and `vacuum` determine the pressure line; `over` only checks it. */
export const POINT_NAMES = ['air', 'vacuum', 'over', 'light', 'ice', 'bath'] as const;
export type PointName = (typeof POINT_NAMES)[number];

export type GuidedEvent =
  | { readonly kind: 'step'; readonly step: StepId }
  | { readonly kind: 'point'; readonly point: Point };
