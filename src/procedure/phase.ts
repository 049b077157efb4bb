/**
 * What a phase is, as data, and the state that phases share. The rows are in `phase-table.ts`; the
 * walk from one to the next in `procedure.ts`.
 */

import type { Answer, Outcome, SealWhy, UnstampedEvent } from '../core/events.ts';
import type { MeasuredValue } from '../core/measurements.ts';
import type { PhaseId } from '../core/phases.ts';
import type { Phrase } from '../core/phrases.ts';
import type { Profile } from './profile.ts';
import type { AirDemand } from './regulation.ts';
import { NO_RISE, type RiseSums } from './rise.ts';

export interface ProcedureState {
  readonly phase: PhaseId;
  /** Time in this phase while running, s. */
  readonly elapsedS: number;
  /** Cycles begun; 0 before the first. */
  readonly cycle: number;
  /** How long this vacuum dwell shall be, and how long vacuum has stood in this cycle. */
  readonly dwellForS: number;
  readonly vacuumHeldS: number;
  /** Readings of the air in an unbroken run without findings. */
  readonly air: { readonly n: number; readonly sumPa: number; readonly goodS: number };
  readonly atmospherePa: number | null;
  /** What is drawn in this air, absolute; null before the self-test has measured it. */
  readonly vacuumPa: number | null;
  readonly sealPullPa: number | null;
  /** The valve-off test: the reading when the chamber was closed, and the rise since then. */
  readonly isolatedPa: number;
  readonly rise: RiseSums;
  readonly leakRatePaM3PerS: number | null;
  /** What the last test saw; null before the first. */
  readonly sealWhy: SealWhy | null;
  /** Longer pulls since the seal was last touched. */
  readonly longPulls: number;
  /** How long the lamp has been out for a look at the dark in the middle of a cure, s; null while not. */
  readonly darkLookS: number | null;
  readonly outcome: Outcome | null;
}

export const NO_AIR = { n: 0, sumPa: 0, goodS: 0 } as const;

export const PROCEDURE_START: ProcedureState = {
  phase: 'self-test',
  elapsedS: 0,
  cycle: 0,
  dwellForS: 0,
  vacuumHeldS: 0,
  air: NO_AIR,
  atmospherePa: null,
  vacuumPa: null,
  sealPullPa: null,
  isolatedPa: 0,
  rise: NO_RISE,
  leakRatePaM3PerS: null,
  sealWhy: null,
  longPulls: 0,
  darkLookS: null,
  outcome: null,
};

/** The same state a little later. Field by field: a spread of so many fields is slow, and this runs at every tick. */
export function stateAfter(state: ProcedureState, dtS: number): ProcedureState {
  return {
    phase: state.phase,
    elapsedS: state.elapsedS + dtS,
    cycle: state.cycle,
    dwellForS: state.dwellForS,
    vacuumHeldS: state.vacuumHeldS,
    air: state.air,
    atmospherePa: state.atmospherePa,
    vacuumPa: state.vacuumPa,
    sealPullPa: state.sealPullPa,
    isolatedPa: state.isolatedPa,
    rise: state.rise,
    leakRatePaM3PerS: state.leakRatePaM3PerS,
    sealWhy: state.sealWhy,
    longPulls: state.longPulls,
    darkLookS: state.darkLookS,
    outcome: state.outcome,
  };
}

export interface PhaseContext {
  readonly profile: Profile;
  /** Volume of chamber, hose and injector, for the leak rate. */
  readonly volumeM3: number;
  /** Greatest ratio of the atmosphere to what the pump leaves. */
  readonly greatestRatio: number;
  /** Null while it cannot be believed. */
  readonly pressurePa: number | null;
  readonly glassK: number | null;
  /** What the self-test finds wrong; empty in other phases. */
  readonly findings: readonly Phrase[];
  readonly answer: Answer | null;
  /** What the lamp gave when it was last measured; null when nobody knows. */
  readonly lampLastKnownWPerM2: number | null;
  /** Of the portion that this phase is about. */
  readonly cure: {
    readonly done: boolean;
    readonly doseJPerM2: number;
    /** Standard, and the factor by which it was counted against the dose. */
    readonly doseUncertaintyJPerM2: number;
    readonly doseCoverageFactor: number;
    readonly lampOnS: number;
  };
  readonly light: {
    /** The reading is fresh, believable, and as dark as the sensor's zero says. */
    readonly dark: boolean;
    /** How long the lit sensor has stood still, s. */
    readonly quietS: number;
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
 * `confirm` waits for YES, `question` for YES or NO, `entry` for a number and YES, `automatic` for the
 * world. A repair asks for no number.
 */
export type PhaseKind = 'automatic' | 'confirm' | 'question' | 'entry';

export interface Phase {
  readonly kind: PhaseKind;
  readonly air: (state: ProcedureState, profile: Profile) => AirDemand;
  readonly lamp: (state: ProcedureState) => boolean;
  /** How long a person may take; null where the world decides. */
  readonly answerWithinS: number | null;
  /** How long the set-point, or the air's own pressure, may take; null where none is approached. */
  readonly reachWithinS: (profile: Profile) => number | null;
  /** How long this phase lasts once entered, s; absent where a person or the world decides. */
  readonly lastsS?: (state: ProcedureState, profile: Profile) => number;
  /** Where a held job goes on. */
  readonly resumeAt: PhaseId;
  readonly observe?: (state: ProcedureState, context: PhaseContext) => ProcedureState;
  readonly next: (state: ProcedureState, context: PhaseContext) => Step | null;
}
