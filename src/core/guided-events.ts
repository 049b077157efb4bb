/**
 * The vocabulary of the guided procedures, beside that of a repair in `events.ts`: their names,
 * their steps with the marks shown on the display, and the events that only they have. This file
 * decides nothing.
 */

export const PROCEDURES = ['pressure', 'uv', 'temperature', 'health'] as const;
export type ProcedureName = (typeof PROCEDURES)[number];

/** Steps with their marks on the display: a letter for the procedure and a number. */
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

export interface Mean {
  readonly mean: number;
  /** Of single readings. */
  readonly standardDeviation: number;
  readonly n: number;
  /** Standard uncertainty of the value beyond that of a mean of `n`. */
  readonly ownStandard: number;
}

export interface Point {
  readonly at: PointName;
  /** Value of the reference, SI. */
  readonly reference: number;
  readonly reading: Mean;
}

/** `air` and `vacuum` determine the pressure's line; `over` only checks it. */
export const POINT_NAMES = ['air', 'vacuum', 'over', 'light', 'ice', 'bath'] as const;
export type PointName = (typeof POINT_NAMES)[number];

export type GuidedEvent =
  | { readonly kind: 'step'; readonly step: StepId }
  | { readonly kind: 'point'; readonly point: Point };
