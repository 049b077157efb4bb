/**
 * Everything that the controller remembers from tick to tick, whichever procedure it runs, and the
 * configuration that stays constant for a whole repair. Plain data; `controller.ts` advances it.
 */
import type { BatchState, EndReason, HoldQuestion, UnitSnapshot } from '../core/events.ts';
import { type Actuators, SAFE, type Signals } from '../core/frame.ts';
import type { Catalogue } from '../panel/catalogue.ts';
import type { AlarmReason } from '../panel/page-words.ts';
import { REGULATOR_AT_REST, type RegulatorState } from '../procedure/regulation.ts';
import { ALL_QUIET, type AlarmRecords } from '../safety/alarms.ts';
import { WATCH_START, type Watch } from '../safety/watch/watch.ts';
import { INITIAL_SIGNAL_MEMORY, type SignalMemory } from '../signal/decode.ts';
import type { UnitSettings } from './unit-settings.ts';

/** The types that differ between procedures, passed to the one controller as one parameter. */
export interface ProcedureTypes {
  /** Constant for the whole run. */
  readonly config: { readonly unit: UnitSettings; readonly catalogue: Catalogue };
  /** Position of the walk through the phases. */
  readonly walk: {
    readonly elapsedS: number;
    readonly atmospherePa: number | null;
    /** Leak of the seal as it was tested, as a volume flow of air; absent where none is tested. */
    readonly leakM3PerS?: number;
  };
  /** What is watched even while the procedure is held: doses and heat, for example. */
  readonly scene: unknown;
  /** Inputs to a row's demand on the air. */
  readonly figures: unknown;
  /** Reasons that only this procedure has, by key. */
  readonly say: object;
  readonly snapshot: UnitSnapshot;
}

/** Why something is held or over: in the words of the record, and as data for the display. */
export interface Reason<Say> {
  readonly record: string;
  readonly shown: Say | AlarmReason;
  /** What the screen of the held job asks; absent where it asks nothing. */
  readonly asks?: HeldQuestion;
  /** Nothing may go on from it: the job can only be ended. */
  readonly mustEnd?: true;
}

/** Whether to end a held job, or why HOLD was pressed. */
export type HeldQuestion = 'end' | HoldQuestion;

export const heldQuestion = (why: Pick<Reason<object>, 'asks'> | null): HeldQuestion | null =>
  why?.asks ?? null;

export interface ControllerState<P extends ProcedureTypes> {
  /** Time of the last frame; null before the first. */
  readonly timeS: number | null;
  readonly signal: SignalMemory;
  readonly batch: BatchState;
  /** Time in this batch state, s. */
  readonly batchForS: number;
  /** Why it is held or over, for the person; null before the first reason. */
  readonly why: Reason<P['say']> | null;
  readonly endReason: EndReason;
  /** State of the procedure, and what it watches. */
  readonly procedure: P['walk'];
  readonly scene: P['scene'];
  readonly regulator: RegulatorState;
  readonly setPointPa: number | null;
  readonly watch: Watch;
  readonly alarms: AlarmRecords;
  /** What the last tick commanded. */
  readonly commanded: Actuators;
  /** Page of the longer explanation; null while it is closed. */
  readonly page: number | null;
  /** Subject of the screen, for how long it has been shown, and since when no press was refused, s. */
  readonly screen: {
    readonly subject: string;
    readonly shownS: number;
    readonly heededS: number;
  };
  /** What the panel showed last, and when and for what it was composed. */
  readonly shown: {
    readonly signals: Signals;
    readonly subject: string;
    readonly page: number | null;
    readonly why: Reason<P['say']> | null;
    readonly detail: number | null;
    readonly wrongKey: boolean;
    readonly atS: number;
  };
  /** True once the `end` event has been sent; nothing happens after it. */
  readonly ended: boolean;
}

/**
 * Copies the state with another procedure state. It does so field by field: this runs at every
 * tick, and a spread of so many fields takes an engine microseconds once their shapes have varied.
 */
export function stateActing<P extends ProcedureTypes>(
  state: ControllerState<P>,
  procedure: P['walk'],
  { regulator, setPointPa, commanded }: Acting,
): ControllerState<P> {
  return {
    timeS: state.timeS,
    signal: state.signal,
    batch: state.batch,
    batchForS: state.batchForS,
    why: state.why,
    endReason: state.endReason,
    procedure,
    scene: state.scene,
    regulator,
    setPointPa,
    watch: state.watch,
    alarms: state.alarms,
    commanded,
    page: state.page,
    screen: state.screen,
    shown: state.shown,
    ended: state.ended,
  };
}
type Acting = Pick<ControllerState<ProcedureTypes>, 'regulator' | 'setPointPa' | 'commanded'>;

const BLANK_SIGNALS: Signals = {
  buzzer: 'off',
  status: { colour: 'off', flashing: false },
  display: ['', '', '', ''],
};

/** The state before the first frame, for a walk that begins at this phase. */
export function startFrom<P extends ProcedureTypes>(
  procedure: P['walk'],
  scene: P['scene'],
): ControllerState<P> {
  return {
    timeS: null,
    signal: INITIAL_SIGNAL_MEMORY,
    batch: 'idle',
    batchForS: 0,
    why: null,
    endReason: 'fault',
    procedure,
    scene,
    regulator: REGULATOR_AT_REST,
    setPointPa: null,
    watch: WATCH_START,
    alarms: ALL_QUIET,
    commanded: SAFE,
    page: null,
    screen: { subject: '', shownS: 0, heededS: Number.POSITIVE_INFINITY },
    shown: {
      signals: BLANK_SIGNALS,
      subject: '',
      page: null,
      why: null,
      detail: null,
      wrongKey: false,
      atS: Number.NEGATIVE_INFINITY,
    },
    ended: false,
  };
}
