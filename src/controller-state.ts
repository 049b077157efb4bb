/**
 * Everything that the controller remembers from tick to tick, and the configuration that stays the
 * same for a whole job. Plain data; `controller.ts` advances it.
 */
import { type OpenResin, RESIN_CLOSED } from './cure/open-resin.ts';
import { NO_DOSES, type PortionDoses } from './cure/portions.ts';
import type { BatchState, EndReason, UnstampedEvent } from './events.ts';
import { type Actuators, SAFE, type Signals } from './frame.ts';
import type { JobSheet } from './intake/job-sheet.ts';
import type { Catalogue } from './panel/catalogue.ts';
import type { ShownReason } from './panel/page-words.ts';
import { PROCEDURE_START, type ProcedureState } from './procedure/phase.ts';
import type { Profile } from './procedure/profile.ts';
import { REGULATOR_AT_REST, type RegulatorState } from './procedure/regulation.ts';
import { ALL_QUIET, type AlarmRecords } from './safety/alarms.ts';
import { HEAT_WATCH_START, type HeatWatch } from './safety/heat-watch.ts';
import { WATCH_START, type Watch } from './safety/watch.ts';
import { INITIAL_SIGNAL_MEMORY, type SignalMemory } from './signal/decode.ts';
import type { UnitSettings } from './unit-settings.ts';

export interface JobConfig {
  readonly unit: UnitSettings;
  readonly profile: Profile;
  readonly job: JobSheet;
  /** The words of the display; they decide nothing. */
  readonly catalogue: Catalogue;
}

/** What one tick carries along; `events` is filled in the order in which things happen. */
export interface Tick {
  readonly config: JobConfig;
  /** Time since the last frame, and what of it may count for dwells and dose. */
  readonly gapS: number;
  readonly dtS: number;
  readonly events: UnstampedEvent[];
}

/** Why a job is held or ended: in the words of the record, and as the display will tell it. */
export interface Reason {
  readonly record: string;
  readonly shown: ShownReason;
  /** Why the job is held, while the screen asks whether to end it. */
  readonly heldFor?: Reason;
}

export const asksEnd = ({ heldFor }: Reason): boolean => heldFor !== undefined;

/** Before a job was ever held; no screen tells it. */
export const NO_REASON: Reason = { record: '', shown: { say: 'held-by-hand' } };

export interface ControllerState {
  /** Time of the last frame; null before the first. */
  readonly timeS: number | null;
  readonly signal: SignalMemory;
  readonly batch: BatchState;
  /** Time in this batch state, s. */
  readonly batchForS: number;
  /** Why the job is held or ended, for the person. */
  readonly why: Reason;
  readonly endReason: EndReason;
  readonly procedure: ProcedureState;
  readonly regulator: RegulatorState;
  readonly setPointPa: number | null;
  readonly doses: PortionDoses;
  readonly watch: Watch;
  readonly heat: HeatWatch;
  readonly openResin: OpenResin;
  readonly alarms: AlarmRecords;
  /** What the last tick told the board. */
  readonly commanded: Actuators;
  /** Page of the longer explanation; null while it is closed. */
  readonly page: number | null;
  /** What the screen was about, and for how long it has been. */
  readonly screen: { readonly subject: string; readonly shownS: number };
  /** What the panel showed last, and when and for what it was composed. */
  readonly shown: {
    readonly signals: Signals;
    readonly subject: string;
    readonly page: number | null;
    readonly why: Reason;
    readonly atS: number;
  };
  /** True once the `end` event has been sent; nothing happens after it. */
  readonly ended: boolean;
}

/**
 * The state with another procedure and what is done in it. Field by field, because a spread of so many
 * fields takes an engine microseconds once their shapes have varied, and this runs at every tick.
 */
export function stateActing(
  state: ControllerState,
  procedure: ProcedureState,
  { regulator, setPointPa, commanded }: Acting,
): ControllerState {
  return {
    timeS: state.timeS,
    signal: state.signal,
    batch: state.batch,
    batchForS: state.batchForS,
    why: state.why,
    endReason: state.endReason,
    procedure,
    regulator,
    setPointPa,
    doses: state.doses,
    watch: state.watch,
    heat: state.heat,
    openResin: state.openResin,
    alarms: state.alarms,
    commanded,
    page: state.page,
    screen: state.screen,
    shown: state.shown,
    ended: state.ended,
  };
}
type Acting = Pick<ControllerState, 'regulator' | 'setPointPa' | 'commanded'>;

const BLANK_SIGNALS: Signals = {
  buzzer: 'off',
  status: { colour: 'off', flashing: false },
  display: ['', '', '', ''],
};

export const CONTROLLER_START: ControllerState = {
  timeS: null,
  signal: INITIAL_SIGNAL_MEMORY,
  batch: 'idle',
  batchForS: 0,
  why: NO_REASON,
  endReason: 'fault',
  procedure: PROCEDURE_START,
  regulator: REGULATOR_AT_REST,
  setPointPa: null,
  doses: NO_DOSES,
  watch: WATCH_START,
  heat: HEAT_WATCH_START,
  openResin: RESIN_CLOSED,
  alarms: ALL_QUIET,
  commanded: SAFE,
  page: null,
  screen: { subject: '', shownS: 0 },
  shown: {
    signals: BLANK_SIGNALS,
    subject: '',
    page: null,
    why: NO_REASON,
    atS: Number.NEGATIVE_INFINITY,
  },
  ended: false,
};
