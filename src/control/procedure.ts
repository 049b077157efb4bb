/**
 * What a procedure supplies to the one controller: its start, the row of the current phase, and
 * pure functions for everything specific to it, from its step to the words of its screens. The
 * controller owns what procedures share: batch, alarms, regulation, guard, pages, panel.
 */

import type {
  Answer,
  EndReason,
  HoldQuestion,
  HoldReason,
  Outcome,
  UnstampedEvent,
} from '../core/events.ts';
import type { Frame, Reading } from '../core/frame.ts';
import type { PhaseId } from '../core/phases.ts';
import type { Face, Seen } from '../panel/face.ts';
import type { PhaseKind } from '../procedure/phase.ts';
import type { AirDemand } from '../procedure/regulation.ts';
import type { AlarmContext } from '../safety/alarm-row.ts';
import type { ControllerState, ProcedureTypes, Reason } from './controller-state.ts';
import type { Intent } from './intents.ts';

/** What the controller needs to know about the current phase. */
export interface PhaseRow<P extends ProcedureTypes> {
  readonly kind: PhaseKind;
  readonly air: (walk: P['walk'], figures: P['figures']) => AirDemand;
}

/** What a procedure asks of the batch; null to keep running. */
export type Lead<Say> = {
  readonly move: 'hold' | 'stop' | 'finish';
  /** Null where another cause ends it. */
  readonly ending: EndReason | null;
  readonly reason: Reason<Say>;
  /** A person has just read and decided: no end screen needs reading. */
  readonly read: boolean;
} | null;

/** The part of the alarms' context that depends on the procedure. */
export type ProcedureAlarms = Pick<
  AlarmContext,
  | 'phase'
  | 'leakRatePaM3PerS'
  | 'darkLookS'
  | 'lightShareRatio'
  | 'gapFailed'
  | 'cureNeedsS'
  | 'lampForecastS'
  | 'heating'
  | 'openResin'
  | 'lampHeat'
  | 'selfTestFindings'
  | 'proving'
  | 'profile'
> & {
  /** Pressure at which the chamber over the glass was shut off; null while it is not. */
  readonly shutOffPa: number | null;
};

/** The least dose counted so far, and its target; J/m2. */
export interface DoseSoFar {
  readonly timeS: number;
  readonly doseJPerM2: number;
  readonly targetJPerM2: number;
}

export interface Walked<P extends ProcedureTypes> {
  readonly walk: P['walk'];
  readonly events: readonly UnstampedEvent[];
  readonly lead: Lead<P['say']>;
}

export interface WalkInput<P extends ProcedureTypes> {
  readonly config: P['config'];
  readonly state: ControllerState<P>;
  readonly frame: Frame;
  readonly reading: Reading;
  readonly intents: readonly Intent[];
  readonly dtS: number;
}

export interface Procedure<P extends ProcedureTypes> {
  /** The state before the first frame. */
  readonly start: (config: P['config']) => ControllerState<P>;
  readonly rowOf: (walk: P['walk']) => PhaseRow<P>;
  readonly figuresOf: (config: P['config']) => P['figures'];
  /** The lamp drive that the current phase asks for; null where the lamp is off. */
  readonly lampRatioOf: (walk: P['walk'], config: P['config']) => number | null;
  /** The repair phase whose alarms and interlocks apply now. */
  readonly holdsAs: (walk: P['walk']) => PhaseId;
  readonly watch: (
    state: ControllerState<P>,
    reading: Reading,
    config: P['config'],
    passed: TimePassed,
  ) => P['scene'];
  readonly alarmsOf: (
    config: P['config'],
    state: ControllerState<P>,
    reading: Reading,
  ) => ProcedureAlarms;
  /** What was noticed in this tick, whether the procedure runs or is held. */
  readonly noticed: (scene: P['scene']) => readonly UnstampedEvent[];
  /** How a raised or cleared alarm changes what is watched. */
  readonly sceneAfter: (scene: P['scene'], events: readonly UnstampedEvent[]) => P['scene'];
  readonly step: (input: WalkInput<P>) => Walked<P>;
  /** Where a held procedure resumes. */
  readonly resume: (walk: P['walk']) => P['walk'];
  /** The event for entering the current phase. */
  readonly entered: (walk: P['walk']) => UnstampedEvent;
  readonly outcomeOf: (walk: P['walk']) => Outcome | null;
  readonly heldBy: (hold: Extract<Intent, { kind: 'hold' }>) => Reason<P['say']>;
  /** What is asked once HOLD has made safe, in this order; nothing where a procedure has no pane. */
  readonly holdQuestions: readonly HoldQuestion[];
  /** What follows once the person has said why. */
  readonly heldFor: (reason: HoldReason, walk: P['walk'], config: P['config']) => HeldFor<P>;
  readonly stoppedBy: (stop: Extract<Intent, { kind: 'stop' }>) => Reason<P['say']>;
  readonly snapshotOf: (
    state: ControllerState<P>,
    reading: Reading,
    config: P['config'],
  ) => P['snapshot'];
  /** Null in a procedure that cures nothing. */
  readonly doseOf: (snapshot: P['snapshot']) => DoseSoFar | null;
  /** The screen's subject, in addition to the batch state; a new subject closes its pages. */
  readonly subjectOf: (walk: P['walk']) => string;
  /** A detail that is shown at once when it changes: a number being dialled. */
  readonly detailOf: (walk: P['walk']) => number | null;
  readonly faceOf: (
    seen: Seen,
    state: ControllerState<P>,
    snapshot: P['snapshot'],
    config: P['config'],
  ) => Face;
}

export interface HeldFor<P extends ProcedureTypes> {
  readonly walk: P['walk'];
  readonly why: Reason<P['say']>;
  readonly events: readonly UnstampedEvent[];
}

/** Time since the last frame, and the part of it that may count for dwells and dose. */
export interface TimePassed {
  readonly gapS: number;
  readonly dtS: number;
}

/** The data of one tick; `events` is filled in the order in which things happen. */
export interface Tick<P extends ProcedureTypes> extends TimePassed {
  readonly procedure: Procedure<P>;
  readonly config: P['config'];
  readonly events: UnstampedEvent[];
}

/** The answer to the open question, if a person gave one. */
export const answerIn = (intents: readonly Intent[]): Answer | null =>
  intents.find((intent) => intent.kind === 'answer')?.answer ?? null;
