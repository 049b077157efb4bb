/**
 * What a guided procedure is configured by, remembers from tick to tick, and tells. Plain data;
 * `guided-controller.ts` advances it.
 */

import type { ReferenceInstrument } from './care/care-entry.ts';
import type { CareSettings } from './care/care-settings.ts';
import type { BatchState, EndReason, UnstampedEvent } from './events.ts';
import { type Actuators, type Outputs, type Request, SAFE, type Signals } from './frame.ts';
import type { GuidedCatalogue } from './guided/catalogue.ts';
import type { GuidedSettings } from './guided/guided-settings.ts';
import { startProgress } from './guided/progress.ts';
import type { Point, ProcedureName, Progress, StepId } from './guided/step.ts';
import type { Catalogue } from './panel/catalogue.ts';
import { REGULATOR_AT_REST, type RegulatorState } from './procedure/regulation.ts';
import { ALL_QUIET, type AlarmRecords, type Standing } from './safety/alarms.ts';
import { WATCH_START, type Watch } from './safety/watch.ts';
import { INITIAL_SIGNAL_MEMORY, type SignalMemory } from './signal/decode.ts';
import type { UnitSettings } from './unit-settings.ts';

export interface GuidedConfig {
  readonly procedure: ProcedureName;
  readonly unit: UnitSettings;
  readonly settings: GuidedSettings;
  readonly care: Pick<CareSettings, 'calibration' | 'health'>;
  /** Null for the health test, which needs none. */
  readonly reference: ReferenceInstrument | null;
  readonly catalogue: Catalogue;
  readonly words: GuidedCatalogue;
  /** What the reference shows, given beforehand in the order in which it is asked for, SI. */
  readonly given: readonly number[];
}

export type GuidedRequest = Request | { readonly kind: 'enter'; readonly valueSI: number };

/** Why a procedure is held or over, by key, so that the display can say it in its language. */
export type GuidedWhy =
  | { readonly say: 'kept' | 'keptNotPassed' | 'thrownAway' | 'person' | 'held' | 'nobodyAnswered' }
  | { readonly late: StepId }
  | { readonly standing: Standing; readonly refused: boolean }
  /** Held for this, while the screen asks whether to end. */
  | { readonly heldFor: GuidedWhy }
  /** From outside, in the words of whoever asked. */
  | { readonly told: string };

export type GuidedEventBody =
  | UnstampedEvent
  | { readonly kind: 'step'; readonly step: StepId }
  | { readonly kind: 'point'; readonly point: Point };
export type GuidedEvent = GuidedEventBody & { readonly timeS: number };

export interface GuidedState {
  readonly timeS: number | null;
  readonly signal: SignalMemory;
  readonly batch: BatchState;
  readonly batchForS: number;
  readonly why: GuidedWhy;
  readonly endReason: EndReason;
  readonly progress: Progress;
  readonly regulator: RegulatorState;
  readonly setPointPa: number | null;
  readonly watch: Watch;
  readonly alarms: AlarmRecords;
  readonly commanded: Actuators;
  /** Page of the longer explanation; null while it is closed. */
  readonly page: number | null;
  readonly screen: { readonly subject: string; readonly shownS: number };
  /** What the panel showed last, and when and for what it was composed. */
  readonly shown: { readonly signals: Signals; readonly of: string; readonly atS: number };
  readonly ended: boolean;
}

const BLANK: Signals = {
  buzzer: 'off',
  status: { colour: 'off', flashing: false },
  display: ['', '', '', ''],
};

export const guidedStart = (procedure: ProcedureName): GuidedState => ({
  timeS: null,
  signal: INITIAL_SIGNAL_MEMORY,
  batch: 'idle',
  batchForS: 0,
  why: { say: 'person' },
  endReason: 'fault',
  progress: startProgress(procedure),
  regulator: REGULATOR_AT_REST,
  setPointPa: null,
  watch: WATCH_START,
  alarms: ALL_QUIET,
  commanded: SAFE,
  page: null,
  screen: { subject: '', shownS: 0 },
  shown: { signals: BLANK, of: '', atS: Number.NEGATIVE_INFINITY },
  ended: false,
});

/** What a person watching would want to know at one tick; SI, null where unknown. */
export interface GuidedSnapshot {
  readonly timeS: number;
  readonly batch: BatchState;
  readonly step: StepId;
  readonly pressurePa: number | null;
  readonly setPointPa: number | null;
  readonly atmospherePa: number | null;
  readonly irradianceWPerM2: number | null;
  readonly glassK: number | null;
  readonly heatSinkK: number | null;
  readonly supplyV: number | null;
  /** A number is asked for. */
  readonly asksNumber: boolean;
}

export interface GuidedStepResult {
  readonly state: GuidedState;
  readonly outputs: Outputs;
  readonly events: readonly GuidedEvent[];
  readonly snapshot: GuidedSnapshot;
}
