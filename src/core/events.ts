/**
 * The vocabulary of a job: the names of its phases and states, and the events that tell its story
 * to the journal, the panel and the report. Names of batch states follow ISA-88 (IEC 61512), names
 * of alarm states ISA-18.2 (IEC 62682). This file decides nothing.
 */
import type { AlarmId } from './alarm-ids.ts';
import type { GuidedEvent } from './guided-events.ts';
import type { MeasuredValue } from './measurements.ts';
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

/** `warn` tells, `hold` makes safe and waits for a person, `abort` makes safe and ends the job. */
export type AlarmAction = 'warn' | 'hold' | 'abort';
export type AlarmPriority = 'low' | 'medium' | 'high';

/** One exposure for fill and pit, or each by its own. */
export const CURINGS = ['together', 'apart'] as const;
export type Curing = (typeof CURINGS)[number];

export type Answer = 'yes' | 'no';

/** What the valve-off test of the seal check saw; `unclear` where the samples leave more than one. */
export const SEAL_FINDINGS = ['tight', 'leak', 'moisture', 'outgassing', 'unclear'] as const;
export type SealFinding = (typeof SEAL_FINDINGS)[number];

/** What its samples show. */
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
] as const;
export type SealWhy = (typeof SEAL_WHYS)[number];

/** Set-points that the local atmosphere may change. */
export const ADAPTED_VACUUMS = ['vacuum', 'seal-pull'] as const;
export type AdaptedVacuum = (typeof ADAPTED_VACUUMS)[number];

/** Why a job ended. */
export type EndReason = 'completed' | 'stopped-by-person' | 'alarm' | 'interrupted' | 'fault';

/** What came of the repair, as the person judged it; null in an end before that. */
export type Outcome = 'clear' | 'mark-remains';

type EventBody =
  | {
      readonly kind: 'batch';
      readonly from: BatchState;
      readonly to: BatchState;
      readonly why: string;
    }
  | { readonly kind: 'phase'; readonly phase: PhaseId; readonly cycle: number }
  | { readonly kind: 'answer'; readonly phase: PhaseId; readonly answer: Answer }
  | ({ readonly kind: 'measured' } & MeasuredValue)
  | { readonly kind: 'seal-finding'; readonly finding: SealFinding; readonly why: string }
  | {
      /** What the profile asked for and what this unit can give in this air; absolute. */
      readonly kind: 'adapted';
      readonly what: AdaptedVacuum;
      readonly askedPa: number;
      readonly givenPa: number;
      readonly why: string;
    }
  | {
      readonly kind: 'alarm';
      readonly alarm: AlarmId;
      readonly from: AlarmState;
      readonly to: AlarmState;
      readonly action: AlarmAction;
      readonly priority: AlarmPriority;
      /** In plain words: what was expected and what was seen, in units. */
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

/** What a person watching would want to know at one tick; SI, pressure absolute, null where unknown. */
export interface UnitSnapshot {
  readonly timeS: number;
  readonly batch: BatchState;
  readonly pressurePa: number | null;
  /** What the regulation aims at; null while the chamber is vented or isolated. */
  readonly setPointPa: number | null;
  /** The job's zero, measured in the self-test. */
  readonly atmospherePa: number | null;
  readonly irradianceWPerM2: number | null;
  readonly glassK: number | null;
  readonly heatSinkK: number | null;
  readonly supplyV: number | null;
}

/** The same in a repair. */
export interface Snapshot extends UnitSnapshot {
  readonly phase: PhaseId;
  /** Cycles begun; 0 before the first. */
  readonly cycle: number;
  readonly doseJPerM2: number;
  readonly targetJPerM2: number;
}
