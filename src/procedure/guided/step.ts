/**
 * One step of a guided procedure, as data, and the state that all steps share. The rows are in
 * `steps-*.ts`, the walk in `progress.ts`. Alarms and guard know only the phases of a repair: each
 * step names the phase whose alarms and interlocks apply in it.
 */
import type { ProvedSwitch, Switches } from '../../core/frame.ts';
import type { Mean, Point, StepId } from '../../core/guided-events.ts';
import type { PhaseId } from '../../core/phases.ts';
import type { PhaseKind } from '../phase.ts';
import type { AirDemand } from '../regulation.ts';
import type { GuidedSettings } from './guided-settings.ts';
import type { Entry } from './number-entry.ts';
import type { QuantityName } from './quantities.ts';
import { NO_SAMPLES, type Window } from './steadiness.ts';

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
  /** Whether each switch was seen to open and close; null before it was tried. */
  readonly interlocks: {
    readonly emergencyStop: boolean | null;
    readonly overPressureSwitch: boolean | null;
  };
  /** The person's decision on the result; null before it. */
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
  interlocks: { emergencyStop: null, overPressureSwitch: null },
  kept: null,
});

export interface StepContext {
  readonly settings: GuidedSettings;
  readonly timeS: number;
  /** Null while it is not valid. */
  readonly pressurePa: number | null;
  readonly answer: 'yes' | 'no' | null;
  readonly switches: Switches;
  /** Every sensor that the procedure needs is valid and no protection of the board has tripped. */
  readonly ready: boolean;
}

export interface GuidedStep {
  readonly kind: PhaseKind;
  /** What is observed, shown, and entered. */
  readonly quantity: QuantityName | null;
  readonly windowS: (settings: GuidedSettings) => number;
  readonly air: (progress: Progress, settings: GuidedSettings) => AirDemand;
  readonly lamp: boolean;
  readonly alarmPhase: PhaseId;
  /** The switch that a person opens on purpose in this step. */
  readonly proving?: ProvedSwitch;
  /**
   * After this time the procedure is stopped; the catalogue gives the reason. Null where an alarm
   * watches the time.
   */
  readonly deadlineS: (settings: GuidedSettings) => number | null;
  /** Where a held procedure resumes. */
  readonly resumeAt: StepId;
  /** The step's results once it is done; null until then. */
  readonly done: (progress: Progress, context: StepContext) => Partial<Progress> | null;
  readonly next: (progress: Progress, settings: GuidedSettings) => StepId | 'finish';
}
