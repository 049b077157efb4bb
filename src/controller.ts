/**
 * One tick of the unit: a frame and the requests of people in, outputs and events out. Pure,
 * synchronous and total. The order is the design's: decode, people, alarms and interlocks, batch,
 * procedure, regulation, guard, panel. It joins the rooms by passing values and decides only what
 * belongs to none of them: how alarms, people and the procedure move the batch.
 */
import { alarmContextOf, findingsOf } from './alarm-context.ts';
import { forcesStop } from './batch-moves.ts';
import { leadBatch, stepBatch } from './batch-step.ts';
import {
  asksEnd,
  type ControllerState,
  type JobConfig,
  stateActing,
  type Tick,
} from './controller-state.ts';
import { RESIN_CLOSED } from './cure/open-resin.ts';
import { countLight, cureInHand, lightSeen, throughPitMeasurement } from './dose-watch.ts';
import type { Answer, Event, Snapshot, UnstampedEvent } from './events.ts';
import {
  type Actuators,
  type Frame,
  type Outputs,
  type Reading,
  type Request,
  SAFE,
  valueOrNull,
} from './frame.ts';
import { type Intent, intentOf } from './intents.ts';
import { showPanel, snapshotOf, turnScreen } from './operator-view.ts';
import { paneMeasurements, watchPane } from './pane-watch.ts';
import { isEnded } from './procedure/batch.ts';
import { phaseOf, stepProcedure } from './procedure/procedure.ts';
import { REGULATOR_AT_REST, stepRegulation } from './procedure/regulation.ts';
import { foremost, stepAlarms } from './safety/alarms.ts';
import { guard } from './safety/guard.ts';
import { stepWatch, watchedIn } from './safety/watch.ts';
import { lightCountsOf, type SignalMemory, stepDecode } from './signal/decode.ts';

export interface ControllerStep {
  readonly state: ControllerState;
  readonly outputs: Outputs;
  readonly events: readonly Event[];
  readonly snapshot: Snapshot;
}

/** Time that a tick may count for: a late frame must not buy dwell or dose that nobody measured. */
const LONGEST_TICK_S = 0.1;

export function stepController(
  config: JobConfig,
  before: ControllerState,
  frame: Frame,
  requests: readonly Request[],
): ControllerStep {
  const gapS = before.timeS === null ? 0 : Math.max(0, frame.timeS - before.timeS);
  const tick: Tick = { config, gapS, dtS: Math.min(gapS, LONGEST_TICK_S), events: [] };

  const decoded = stepDecode(before.signal, frame, before.commanded, config.unit.channels);
  const { reading } = decoded;
  const observed = observe(before, decoded.memory, reading, tick);
  const intents = intentsOf(observed, reading, requests);
  const alarmed = runAlarms(observed, reading, intents, tick);
  const batched = stepBatch(alarmed, reading, intents, tick);
  const proceeded = runProcedure(batched, reading, intents, tick);
  const acted = runActuators(proceeded, reading, tick);
  const snapshot = snapshotOf(acted, reading, config);
  const state = showPanel(turnScreen(acted, intents), snapshot, config);
  return {
    state,
    outputs: outputsOf(state),
    events: stamped(tick.events, frame.timeS),
    snapshot,
  };
}

const NO_EVENTS: readonly Event[] = [];

const stamped = (events: readonly UnstampedEvent[], timeS: number): readonly Event[] =>
  events.length === 0 ? NO_EVENTS : events.map((event) => ({ timeS, ...event }));

/** Field by field: spreading a second object into a literal takes an engine microseconds a tick. */
function outputsOf(state: ControllerState): Outputs {
  const { pumpRatio, selector, ventOpen, lampEnabled, lampRatio } = state.commanded;
  const { buzzer, status, display } = state.shown.signals;
  const clearTrips = clearsTrips(state);
  return {
    pumpRatio,
    selector,
    ventOpen,
    lampEnabled,
    lampRatio,
    buzzer,
    status,
    display,
    clearTrips,
  };
}

/**
 * A board's latched protection is cleared at the start of a job and when a person lets it go on: by
 * then somebody has seen to the cause. The outputs are safe in both, else the board would not.
 */
function clearsTrips({ batch, procedure }: ControllerState): boolean {
  return batch === 'restarting' || (batch === 'running' && procedure.phase === 'self-test');
}

function observe(
  state: ControllerState,
  signal: SignalMemory,
  reading: Reading,
  { config, dtS }: Tick,
): ControllerState {
  const { heat, openResin } = watchPane(state, reading, config, dtS);
  // Field by field, as in `stateActing`.
  return {
    timeS: reading.timeS,
    signal,
    batch: state.batch,
    batchForS: state.batchForS + dtS,
    why: state.why,
    endReason: state.endReason,
    procedure: state.procedure,
    regulator: state.regulator,
    setPointPa: state.setPointPa,
    doses: countLight(state, reading, config, dtS),
    watch: stepWatch(state.watch, state.commanded, watchedIn(reading, lightCountsOf(signal)), dtS),
    heat,
    openResin,
    alarms: state.alarms,
    commanded: state.commanded,
    page: state.page,
    screen: { subject: state.screen.subject, shownS: state.screen.shownS + dtS },
    shown: state.shown,
    ended: state.ended,
  };
}

function intentsOf(
  state: ControllerState,
  reading: Reading,
  requests: readonly Request[],
): readonly Intent[] {
  const situation = {
    batch: state.batch,
    kind: phaseOf(state.procedure).kind,
    alarm: foremost(state.alarms)?.row.id ?? null,
    helpOpen: state.page !== null,
    asksEnd: asksEnd(state.why),
    shownS: state.screen.shownS,
  };
  const pressed = reading.pressed.map((button): Request => ({ kind: 'button', button }));
  return [...pressed, ...requests].map((request) => intentOf(request, situation));
}

function runAlarms(
  state: ControllerState,
  reading: Reading,
  intents: readonly Intent[],
  { config, gapS, events }: Tick,
): ControllerState {
  const acknowledged = intents.find((intent) => intent.kind === 'acknowledge')?.alarm ?? null;
  const reset = intents.some((intent) => intent.kind === 'restart');
  const over = isEnded(state.batch);
  const stepped = stepAlarms(
    state.alarms,
    config.unit.alarms,
    alarmContextOf(config, state, reading, gapS),
    { acknowledged, reset },
    // A job that is over cannot be held any more; what is dangerous is still told.
    ({ action, id }) => !over || action === 'abort' || id === acknowledged,
  );
  events.push(...stepped.events);
  if (stepped.records === state.alarms) return state;
  // Whoever lets a job go on after that alarm has put in a fresh drop.
  const renewed = stepped.events.some(
    (event) => event.kind === 'alarm' && event.alarm === 'daylight-set' && event.to === 'normal',
  );
  const openResin = renewed ? RESIN_CLOSED : state.openResin;
  return { ...state, alarms: stepped.records, openResin };
}

function runProcedure(
  state: ControllerState,
  reading: Reading,
  intents: readonly Intent[],
  { config, dtS, events }: Tick,
): ControllerState {
  if (state.batch !== 'running') return state;
  const answer: Answer | null = intents.find((intent) => intent.kind === 'answer')?.answer ?? null;
  const {
    state: procedure,
    lead,
    events: told,
  } = stepProcedure(state.procedure, {
    profile: config.profile,
    volumeM3: config.unit.chamberVolumeM3,
    greatestRatio: config.unit.pump.greatestRatio,
    pressurePa: valueOrNull(reading.pressurePa),
    glassK: valueOrNull(reading.glassK),
    findings: findingsOf(config, state, reading),
    answer,
    lampLastKnownWPerM2: config.unit.lampLastKnownWPerM2,
    cure: cureInHand(state, config),
    light: lightSeen(state, reading, config),
    dtS,
  });
  const after = stateActing(state, procedure, state);
  if (told.length > 0) {
    const before = state.procedure.phase;
    events.push(
      ...told,
      ...paneMeasurements(before, after, config),
      ...throughPitMeasurement(before, after, config),
    );
  }
  return leadBatch(after, lead, events);
}

function runActuators(state: ControllerState, reading: Reading, tick: Tick): ControllerState {
  const { wanted, regulator, setPointPa } = regulate(state, reading, tick);
  const alarmStops = forcesStop(state.alarms);
  const { batch } = state;
  const { phase } = state.procedure;
  const commanded = guard(wanted, { batch, phase, reading, alarmStops });
  return stateActing(state, state.procedure, { regulator, setPointPa, commanded });
}

/** What the phase in hand would have the actuators do; the guard decides whether they may. */
function regulate(
  state: ControllerState,
  reading: Reading,
  { config, dtS }: Tick,
): Pick<ControllerState, 'regulator' | 'setPointPa'> & { wanted: Actuators } {
  if (state.batch !== 'running') {
    return { regulator: REGULATOR_AT_REST, setPointPa: null, wanted: SAFE };
  }
  const { air, lamp } = phaseOf(state.procedure);
  const lit = lamp(state.procedure);
  const demand = air(state.procedure, config.profile);
  const { state: regulator, command } = stepRegulation(
    state.regulator,
    demand,
    valueOrNull(reading.pressurePa),
    dtS,
  );
  return {
    regulator,
    setPointPa: 'setPointPa' in demand ? demand.setPointPa : null,
    wanted: {
      pumpRatio: command.pumpRatio,
      selector: command.selector,
      ventOpen: command.ventOpen,
      lampEnabled: lit,
      lampRatio: lit ? config.profile.cure.lampRatio : 0,
    },
  };
}
