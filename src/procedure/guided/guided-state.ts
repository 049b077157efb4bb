/**
 * What a guided procedure adds to the controller's state and configuration. Plain data; it decides
 * nothing.
 */
import type { ReferenceInstrument } from '../../care/care-entry.ts';
import type { CareSettings } from '../../care/care-settings.ts';
import type { ControllerState, Reason } from '../../control/controller-state.ts';
import type { UnitSettings } from '../../control/unit-settings.ts';
import type { UnitSnapshot } from '../../core/events.ts';
import type { ProcedureName, StepId } from '../../core/guided-events.ts';
import type { Catalogue } from '../../panel/catalogue.ts';
import type { GuidedCatalogue } from './catalogue.ts';
import type { GuidedSettings } from './guided-settings.ts';
import type { LampWatch } from './lamp-watch.ts';
import type { Progress } from './step.ts';

export interface GuidedConfig {
  readonly procedure: ProcedureName;
  readonly unit: UnitSettings;
  readonly settings: GuidedSettings;
  readonly care: Pick<CareSettings, 'calibration' | 'health'>;
  /** Null for the health test, which needs none. */
  readonly reference: ReferenceInstrument | null;
  readonly catalogue: Catalogue;
  readonly words: GuidedCatalogue;
  /** Reference values given beforehand, SI, in the order in which they are asked for. */
  readonly given: readonly number[];
}

/** By key, so that the display can say it in its language. */
export type GuidedSay =
  | { readonly say: keyof GuidedCatalogue['ends'] | 'interrupted' }
  | { readonly late: StepId };

export interface GuidedSnapshot extends UnitSnapshot {
  readonly step: StepId;
  /** A number is asked for. */
  readonly asksNumber: boolean;
}

export interface Guided {
  readonly config: GuidedConfig;
  readonly walk: Progress;
  /** There is no pane and no resin: what is watched is the lamp. */
  readonly scene: LampWatch;
  readonly figures: GuidedSettings;
  readonly say: GuidedSay;
  readonly snapshot: GuidedSnapshot;
}

export type GuidedState = ControllerState<Guided>;
export type GuidedReason = Reason<GuidedSay>;
