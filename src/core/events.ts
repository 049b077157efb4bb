/**
 * The vocabulary of a job: the names of its phases and states, and the events that report its
 * course to journal, panel and report. Names of batch states follow ISA-88 (IEC 61512), names of
 * alarm states ISA-18.2 (IEC 62682). This file decides nothing.
 */
import type { AlarmId } from './alarm-ids.ts';
import type { GuidedEvent } from './guided-events.ts';
import type { MeasuredValue, Portion } from './measurements.ts';
import type { PhaseId } from './phases.ts';

export const BATCH_STATES = [
  'idle',
  'running',
  'holding',
  'held',
  'restarting',
  'stopping',
  'stopped',
  'aborting',
  'aborted',
  'complete',
] as const;
export type BatchState = (typeof BATCH_STATES)[number];

export const ALARM_STATES = [
  'normal',
  'unacknowledged',
  'acknowledged',
  'returned-unacknowledged',
  'latched',
] as const;
export type AlarmState = (typeof ALARM_STATES)[number];

/**
 * `warn` informs, `hold` makes safe and waits for a person, `abort` makes safe and ends the job.
 */
export type AlarmAction = 'warn' | 'hold' | 'abort';
export type AlarmPriority = 'low' | 'medium' | 'high';

/** One exposure for fill and pit, or one for each. */
export const CURINGS = ['together', 'apart'] as const;
export type Curing = (typeof CURINGS)[number];

export type Answer = 'yes' | 'no';

/** Finding of the seal check's valve-off test; `unclear` when the samples fit more than one. */
export const SEAL_FINDINGS = ['tight', 'leak', 'moisture', 'outgassing', 'unclear'] as const;
export type SealFinding = (typeof SEAL_FINDINGS)[number];

/** Reason for the finding, from its samples. */
export const SEAL_WHYS = [
  'too-few-readings',
  'jumps-when-closed',
  'rises-in-a-line',
  'close-to-the-limit',
  'vacuum-stays',
  'rises-on-and-on',
  'glass-unknown',
  'rises-past-water',
  'leak-or-vapour',
  'still-rising',
  'pressure-falls',
  'levels-below-water',
  'levels-like-water',
  'water-or-outgassing',
  'pressure-stays',
  'falls-in-a-line',
  'lifts-under-pressure',
] as const;
export type SealWhy = (typeof SEAL_WHYS)[number];

/** Set-points that the local atmosphere may change, or a leg that grew. */
export const ADAPTED_SET_POINTS = ['vacuum', 'seal-pull', 'pressure'] as const;
export type AdaptedSetPoint = (typeof ADAPTED_SET_POINTS)[number];

/**
 * Why light in a cure is not shown to be the lamp's: the reading did not fall to dark with the lamp,
 * did not come back with it, or left its level in between.
 */
export const GAP_FAILURES = ['not-dark', 'not-back', 'unsteady'] as const;
export type GapFailure = (typeof GAP_FAILURES)[number];

/** Why a person pressed HOLD: each is asked in turn, and the last is what is left. */
export const HOLD_REASONS = ['leg-grew', 'resin-inside', 'something-else'] as const;
export type HoldReason = (typeof HOLD_REASONS)[number];
/** Those that are asked for. */
export type HoldQuestion = Exclude<HoldReason, 'something-else'>;

/** Why the injector is charged with fresh resin in the middle of the cycles. */
export const RECHARGE_WHYS = ['injector-dry', 'reseated', 'after-cycles', 'thinner-resin'] as const;
export type RechargeWhy = (typeof RECHARGE_WHYS)[number];

/** What may help a break that is not clear, in no order. */
export const REMEDY_IDS = [
  'longer-vacuum',
  'probe-and-flex',
  'warmth',
  'thinner-resin',
  'lower-pressure',
  'open-pit',
  'leave-and-return',
] as const;
export type RemedyId = (typeof REMEDY_IDS)[number];

/** What is moved along a long break. */
export const MOVED = ['injector', 'lamp'] as const;
export type Moved = (typeof MOVED)[number];

/** Why a job ended. */
export type EndReason = 'completed' | 'stopped-by-person' | 'alarm' | 'interrupted' | 'fault';

/** Result of the repair as judged by the person; null when the job ends before that. */
export const OUTCOMES = ['clear', 'mark-remains'] as const;
export type Outcome = (typeof OUTCOMES)[number];

type EventBody =
  | {
      readonly kind: 'batch';
      readonly from: BatchState;
      readonly to: BatchState;
      readonly why: string;
    }
  | { readonly kind: 'phase'; readonly phase: PhaseId; readonly cycle: number }
  | { readonly kind: 'answer'; readonly phase: PhaseId; readonly answer: Answer }
  | { readonly kind: 'hold-reason'; readonly phase: PhaseId; readonly reason: HoldReason }
  /** Fresh resin is in the injector; `cycle` is the one that comes next. */
  | { readonly kind: 'recharge'; readonly cycle: number; readonly why: RechargeWhy }
  | {
      /** A remedy was offered after `cycle`; whether the person carried it out. */
      readonly kind: 'remedy';
      readonly cycle: number;
      readonly remedy: RemedyId;
      readonly taken: boolean;
    }
  | {
      /** A person said that it stands at its next place along the break, counted from 1. */
      readonly kind: 'moved';
      readonly what: Moved;
      readonly to: number;
      readonly of: number;
    }
  | ({ readonly kind: 'measured' } & MeasuredValue)
  | {
      readonly kind: 'seal-finding';
      readonly finding: SealFinding;
      readonly why: string;
      /** Absent under vacuum. */
      readonly under?: 'pressure' | undefined;
    }
  | {
      /** The profile's request and what is given instead; absolute. */
      readonly kind: 'adapted';
      readonly what: AdaptedSetPoint;
      readonly askedPa: number;
      readonly givenPa: number;
      readonly why: string;
    }
  | {
      /** An interruption of the lamp that did not show its light; those that did are only counted. */
      readonly kind: 'gap-failed';
      /** Null where one exposure is for both. */
      readonly portion: Portion | null;
      readonly why: GapFailure;
      /** Light so far that never counts because of it. */
      readonly lostJPerM2: number;
    }
  | {
      readonly kind: 'alarm';
      readonly alarm: AlarmId;
      readonly from: AlarmState;
      readonly to: AlarmState;
      readonly action: AlarmAction;
      readonly priority: AlarmPriority;
      /** In plain words: expected and seen values, with units. */
      readonly cause: string;
      readonly remedy: string;
    }
  | { readonly kind: 'refused'; readonly request: string; readonly why: string }
  | {
      readonly kind: 'end';
      readonly reason: EndReason;
      readonly why: string;
      readonly outcome: Outcome | null;
    }
  | GuidedEvent;

export type Event = EventBody & { readonly timeS: number };
/** An event before the controller stamps it with the frame's time. */
export type UnstampedEvent = EventBody;

export const measuredEvents = (values: readonly MeasuredValue[]): readonly UnstampedEvent[] =>
  values.map((value) => ({ kind: 'measured', ...value }));

/** What an observer would want to know each tick; SI, absolute pressure, null when unknown. */
export interface UnitSnapshot {
  readonly timeS: number;
  readonly batch: BatchState;
  readonly pressurePa: number | null;
  /** The regulation's set-point; null while the chamber is vented or isolated. */
  readonly setPointPa: number | null;
  /** The job's zero, measured in the self-test. */
  readonly atmospherePa: number | null;
  readonly irradianceWPerM2: number | null;
  readonly glassK: number | null;
  readonly heatSinkK: number | null;
  readonly supplyV: number | null;
}

/** The same for a repair. */
export interface Snapshot extends UnitSnapshot {
  readonly phase: PhaseId;
  /** Cycles begun; 0 before the first. */
  readonly cycle: number;
  readonly doseJPerM2: number;
  readonly targetJPerM2: number;
}
