/**
 * What a repair adds to the controller's state and configuration. Plain data; it decides nothing.
 */

import type { ControllerState, Reason } from '../../control/controller-state.ts';
import type { UnitSettings } from '../../control/unit-settings.ts';
import type { Snapshot } from '../../core/events.ts';
import type { LightProof } from '../../cure/light-proof.ts';
import type { OpenResin } from '../../cure/open-resin.ts';
import type { PortionDoses } from '../../cure/portions.ts';
import type { UncountedLight } from '../../cure/uncounted-light.ts';
import type { JobSheet } from '../../intake/sheet/job-sheet.ts';
import type { Catalogue, ReasonKey } from '../../panel/catalogue.ts';
import type { GlassWatch } from '../../safety/watch/glass-watch.ts';
import type { HeatWatch } from '../../safety/watch/heat-watch.ts';
import type { SinkWatch } from '../../safety/watch/sink-watch.ts';
import type { ProcedureState } from '../phase.ts';
import type { Profile } from '../profile.ts';
import type { Entry } from './reentry.ts';

export interface RepairConfig {
  readonly unit: UnitSettings;
  readonly profile: Profile;
  readonly job: JobSheet;
  /** The words of the display; they affect no decision. */
  readonly catalogue: Catalogue;
  /** The vehicle's plate, for the display only: it is personal, and no record of a run holds it. */
  readonly vehicle?: string;
  /** How long a leg may grow before a rule ends the repair; absent where none does or was asked. */
  readonly legRule?: { readonly longestM: number; readonly rule: string };
  /** Where another attempt of a job goes on; absent in a job's first attempt. */
  readonly entry?: Entry;
}

/** Effects of light and heat on pane and resin; they continue while the job is held. */
export interface RepairScene {
  /** All light that was counted, and the part of it that is shown. */
  readonly doses: PortionDoses;
  /** What acted beside the doses, at most. */
  readonly uncounted: UncountedLight;
  readonly proof: LightProof;
  readonly heat: HeatWatch;
  readonly openResin: OpenResin;
  /** Whether both thermistors follow the lamp. */
  readonly sink: SinkWatch;
  readonly glass: GlassWatch;
}

export interface RepairSay {
  readonly say: ReasonKey;
}

export interface Repair {
  readonly config: RepairConfig;
  readonly walk: ProcedureState;
  readonly scene: RepairScene;
  readonly figures: Profile;
  readonly say: RepairSay;
  readonly snapshot: Snapshot;
}

export type RepairState = ControllerState<Repair>;
export type RepairReason = Reason<RepairSay>;
