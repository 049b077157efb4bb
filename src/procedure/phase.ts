/**
 * A phase as data, and the state that phases share. The rows are in `phase-table.ts`; the walk from
 * one to the next in `repair-phases.ts`.
 */

import type {
  Answer,
  Outcome,
  RechargeWhy,
  RemedyId,
  SealWhy,
  UnstampedEvent,
} from '../core/events.ts';
import type { MeasuredValue } from '../core/measurements.ts';
import type { PhaseId } from '../core/phases.ts';
import type { Phrase } from '../core/phrases.ts';
import type { WorkPlan } from './places.ts';
import type { Profile } from './profile.ts';
import type { AirDemand } from './regulation.ts';
import { NO_RISE, type RiseSums } from './rise.ts';

export interface ProcedureState {
  readonly phase: PhaseId;
  /** Time in this phase while running, s. */
  readonly elapsedS: number;
  /** Cycles begun; 0 before the first. */
  readonly cycle: number;
  /** Where injector and lamp stand along the break, from 1; and the cycles before this position. */
  readonly position: number;
  readonly field: number;
  readonly cyclesBefore: number;
  /** The cycle that was begun has been judged; one that went back to the seal is run again. */
  readonly cycleOver: boolean;
  /** Resin is in the injector; whether the foot was lifted since, and at which cycle it went in. */
  readonly resinIn: boolean;
  /** Resin of this attempt or of one before it. */
  readonly resinInBreak: boolean;
  readonly reseated: boolean;
  readonly chargedAtCycle: number;
  /** A leg grew and has not been measured yet. */
  readonly legGrew: boolean;
  /** Where the job goes on once the leg is measured, or the glass inside its range. */
  readonly goesOnAt: PhaseId | null;
  /** Remedies carried out, those declined since the last look, and the one that is in hand. */
  readonly tried: readonly RemedyId[];
  readonly passedOver: readonly RemedyId[];
  readonly remedy: RemedyId | null;
  /** By what the next vacuum dwell is longer, and the share of the pressure from now on. */
  readonly dwellTimes: number;
  readonly pressureRatio: number;
  /** Why the injector is being charged again. */
  readonly rechargeWhy: RechargeWhy | null;
  /**
   * The planned length of this vacuum dwell, and the time that vacuum has been held in this cycle.
   */
  readonly dwellForS: number;
  readonly vacuumHeldS: number;
  /** Readings of the air in an unbroken run without findings. */
  readonly air: { readonly n: number; readonly sumPa: number; readonly goodS: number };
  readonly atmospherePa: number | null;
  /**
   * The vacuum to draw at this air pressure, absolute; null before the self-test has measured it.
   */
  readonly vacuumPa: number | null;
  readonly sealPullPa: number | null;
  /** Vacuum and pressure as a share of the profile's: 1, or less once a leg has grown. */
  readonly loadRatio: number;
  /** The valve-off test: the reading when the chamber was closed, and the rise since then. */
  readonly isolatedPa: number;
  readonly rise: RiseSums;
  readonly leakRatePaM3PerS: number | null;
  /** The same as a volume flow of the air outside, for other pressures; 0 before the first test. */
  readonly leakM3PerS: number;
  /** What the last test saw; null before the first. */
  readonly sealWhy: SealWhy | null;
  /** Longer pulls since the seal was last touched. */
  readonly longPulls: number;
  /** How long the lamp has been off for a check of the dark during a cure, s; null otherwise. */
  readonly darkLookS: number | null;
  /** Further doses asked for because the resin was found soft. */
  readonly furtherCures: number;
  readonly outcome: Outcome | null;
}

export const NO_AIR = { n: 0, sumPa: 0, goodS: 0 } as const;

export const PROCEDURE_START: ProcedureState = {
  phase: 'self-test',
  elapsedS: 0,
  cycle: 0,
  position: 1,
  field: 1,
  cyclesBefore: 0,
  cycleOver: true,
  resinIn: false,
  resinInBreak: false,
  reseated: false,
  chargedAtCycle: 0,
  legGrew: false,
  goesOnAt: null,
  tried: [],
  passedOver: [],
  remedy: null,
  dwellTimes: 1,
  pressureRatio: 1,
  rechargeWhy: null,
  dwellForS: 0,
  vacuumHeldS: 0,
  air: NO_AIR,
  atmospherePa: null,
  vacuumPa: null,
  sealPullPa: null,
  loadRatio: 1,
  isolatedPa: 0,
  rise: NO_RISE,
  leakRatePaM3PerS: null,
  leakM3PerS: 0,
  sealWhy: null,
  longPulls: 0,
  darkLookS: null,
  furtherCures: 0,
  outcome: null,
};

/**
 * The same state a little later. Copied field by field: a spread of so many fields is slow, and
 * this runs at every tick.
 */
export function stateAfter(state: ProcedureState, dtS: number): ProcedureState {
  return {
    phase: state.phase,
    elapsedS: state.elapsedS + dtS,
    cycle: state.cycle,
    position: state.position,
    field: state.field,
    cyclesBefore: state.cyclesBefore,
    cycleOver: state.cycleOver,
    resinIn: state.resinIn,
    resinInBreak: state.resinInBreak,
    reseated: state.reseated,
    chargedAtCycle: state.chargedAtCycle,
    legGrew: state.legGrew,
    goesOnAt: state.goesOnAt,
    tried: state.tried,
    passedOver: state.passedOver,
    remedy: state.remedy,
    dwellTimes: state.dwellTimes,
    pressureRatio: state.pressureRatio,
    rechargeWhy: state.rechargeWhy,
    dwellForS: state.dwellForS,
    vacuumHeldS: state.vacuumHeldS,
    air: state.air,
    atmospherePa: state.atmospherePa,
    vacuumPa: state.vacuumPa,
    sealPullPa: state.sealPullPa,
    loadRatio: state.loadRatio,
    isolatedPa: state.isolatedPa,
    rise: state.rise,
    leakRatePaM3PerS: state.leakRatePaM3PerS,
    leakM3PerS: state.leakM3PerS,
    sealWhy: state.sealWhy,
    longPulls: state.longPulls,
    darkLookS: state.darkLookS,
    furtherCures: state.furtherCures,
    outcome: state.outcome,
  };
}

export interface PhaseContext {
  readonly profile: Profile;
  /** How this break is worked along its length. */
  readonly plan: WorkPlan;
  /** Kind of break, as the job sheet names it. */
  readonly damageType: string;
  /** Volume of chamber, hose and injector, for the leak rate. */
  readonly volumeM3: number;
  /** The tighter of the profile's limit and the unit's. */
  readonly leakLimitPaM3PerS: number;
  /** Maximum ratio of the atmosphere to the pressure that the pump leaves. */
  readonly greatestRatio: number;
  /** Air pressure that the unit measured in its last complete job; null when it is not known. */
  readonly airLastJobPa: number | null;
  /** Null while it is not valid. */
  readonly pressurePa: number | null;
  /** How far the pressure lies behind what the pump's work must have made of it, Pa. */
  readonly pumpAheadPa: number;
  readonly glassK: number | null;
  /** What the self-test finds wrong; empty in other phases. */
  readonly findings: readonly Phrase[];
  /** Where another attempt of a job goes on after gloves and glasses; absent in a first attempt. */
  readonly entryAt?: PhaseId | undefined;
  readonly answer: Answer | null;
  /** Last measured output of the lamp; null when it is not known. */
  readonly lampLastKnownWPerM2: number | null;
  /** For the portion that this phase treats. */
  readonly cure: {
    /** The dose that is shown reaches the target, in no less than the least time. */
    readonly done: boolean;
    /** The lamp must be interrupted now. */
    readonly gapDue: boolean;
    /** All light that was counted, whether it is shown or not. */
    readonly doseJPerM2: number;
    readonly lampOnS: number;
    /** Of the light between gaps that passed: standard uncertainty, and coverage factor. */
    readonly doseUncertaintyJPerM2: number;
    readonly doseCoverageFactor: number;
    /** What is shown of it at least. */
    readonly shownDoseJPerM2: number;
    readonly gapsPassed: number;
    readonly gapsFailed: number;
    /** Part of the light between gaps that the lamp's known output did not confirm. */
    readonly unconfirmedDoseJPerM2: number;
  };
  readonly light: {
    /** The reading is fresh, valid, and as dark as the sensor's zero allows. */
    readonly dark: boolean;
    /** No piece of light waits for its closing gap any more. */
    readonly judged: boolean;
  };
  readonly dtS: number;
}

/** Where a phase leads, what it changes on the way, and what it measured. */
export interface Step {
  readonly to: PhaseId | 'hold' | 'stop' | 'finish';
  readonly patch?: Partial<ProcedureState>;
  readonly measured?: readonly MeasuredValue[];
  readonly events?: readonly UnstampedEvent[];
}

/**
 * `confirm` waits for YES, `question` for YES or NO, `entry` for a number and YES, `automatic` for
 * the plant. A repair asks for no number.
 */
export type PhaseKind = 'automatic' | 'confirm' | 'question' | 'entry';

export interface Phase {
  readonly kind: PhaseKind;
  readonly air: (state: ProcedureState, profile: Profile) => AirDemand;
  readonly lamp: (state: ProcedureState) => boolean;
  /** How long a person may take; null where the plant decides. */
  readonly answerWithinS: number | null;
  /**
   * How long the approach to the set-point, or to the air pressure, may take; null where there is
   * none.
   */
  readonly reachWithinS: (profile: Profile) => number | null;
  /** How long this phase lasts once entered, s; absent where a person or the plant decides. */
  readonly lastsS?: (state: ProcedureState, profile: Profile) => number;
  /** Where a held job resumes. */
  readonly resumeAt: PhaseId;
  readonly observe?: (state: ProcedureState, context: PhaseContext) => ProcedureState;
  readonly next: (state: ProcedureState, context: PhaseContext) => Step | null;
}
