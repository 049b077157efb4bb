/**
 * What a phase is, as data, and the state that phases share. The rows are in `phase-table.ts`; the
 * walk from one to the next in `procedure.ts`.
 */
import type { Answer, Measurement, Outcome, PhaseId } from '../events.ts';
import { NO_POINTS, type SlopeFit } from './leak.ts';
import type { Profile } from './profile.ts';
import type { AirDemand } from './regulation.ts';

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
  readonly leakFit: SlopeFit;
  readonly leakRatePaM3PerS: number | null;
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
  leakFit: NO_POINTS,
  leakRatePaM3PerS: null,
  outcome: null,
};

export interface PhaseContext {
  readonly profile: Profile;
  /** Volume of chamber, hose and injector, for the leak rate. */
  readonly volumeM3: number;
  /** Null while it cannot be believed. */
  readonly pressurePa: number | null;
  /** What the self-test finds wrong; empty in other phases. */
  readonly findings: readonly string[];
  readonly answer: Answer | null;
  /** What the lamp gave when it was last measured; null when nobody knows. */
  readonly lampLastKnownWPerM2: number | null;
  readonly cure: { readonly done: boolean; readonly doseJPerM2: number; readonly lampOnS: number };
  readonly dtS: number;
}

/** Where a phase leads, what it changes on the way, and what it measured. */
export interface Step {
  readonly to: PhaseId | 'hold' | 'stop' | 'finish';
  readonly patch?: Partial<ProcedureState>;
  readonly measured?: Readonly<Partial<Record<Measurement, number>>>;
}

/** `confirm` waits for YES, `question` for YES or NO, `automatic` for the world. */
export type PhaseKind = 'automatic' | 'confirm' | 'question';

export interface Phase {
  readonly kind: PhaseKind;
  readonly air: (state: ProcedureState, profile: Profile) => AirDemand;
  readonly lamp: boolean;
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
