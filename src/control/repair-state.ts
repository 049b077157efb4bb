/** What a repair adds to the controller's state and configuration. Plain data; it decides nothing. */
import type { ControllerState, JobConfig, Reason } from '../controller-state.ts';
import type { OpenResin } from '../cure/open-resin.ts';
import type { PortionDoses } from '../cure/portions.ts';
import type { Snapshot } from '../events.ts';
import type { ReasonKey } from '../panel/catalogue.ts';
import type { ProcedureState } from '../procedure/phase.ts';
import type { Profile } from '../procedure/profile.ts';
import type { HeatWatch } from '../safety/heat-watch.ts';

/** What light and heat do to pane and resin; it goes on while the job is held. */
export interface RepairScene {
  readonly doses: PortionDoses;
  readonly heat: HeatWatch;
  readonly openResin: OpenResin;
}

export interface RepairSay {
  readonly say: ReasonKey;
}

export interface Repair {
  readonly config: JobConfig;
  readonly walk: ProcedureState;
  readonly scene: RepairScene;
  readonly figures: Profile;
  readonly say: RepairSay;
  readonly snapshot: Snapshot;
}

export type RepairState = ControllerState<Repair>;
export type RepairReason = Reason<RepairSay>;
