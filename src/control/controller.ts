/**
 * One tick of the unit, whichever procedure it runs: a frame and people's requests in, outputs and
 * events out. It is pure, synchronous and total. The order is fixed by the design: decode, people,
 * alarms and interlocks, batch, procedure, regulation, guard, panel. It joins the rooms by passing
 * values and decides only what belongs to none of them: how alarms, people and the procedure move
 * the batch.
 */

import type { Event, UnstampedEvent } from '../core/events.ts';
import {
  type Actuators,
  type Frame,
  type Outputs,
  type Reading,
  type Request,
  SAFE,
  valueOrNull,
} from '../core/frame.ts';
import { CURE_PHASES, HOLDING_SET_POINT } from '../core/phases.ts';
import { isEnded } from '../procedure/batch.ts';
import { REGULATOR_AT_REST, stepRegulation } from '../procedure/regulation.ts';
import { foremost, stepAlarms } from '../safety/alarms.ts';
import { guard } from '../safety/guard.ts';
import { stepWatch, type Watch, watchedIn } from '../safety/watch/watch.ts';
import { lightCountsOf, type SignalMemory, stepDecode } from '../signal/decode.ts';
import { soundFrame } from '../signal/sound-frame.ts';
import { alarmContextOf } from './alarm-context.ts';
import { forcesStop, leadBatch, stepBatch } from './batch-step.ts';
import {
  heldQuestion,
  type ProcedureTypes,
  type ControllerState as State,
  stateActing,
} from './controller-state.ts';
import { holdStaysDown, type Intent, intentOf, withHoldFirst } from './intents.ts';
import { showPanel, turnScreen } from './operator-view.ts';
import type { Procedure, Tick } from './procedure.ts';

export interface ControllerStep<P extends ProcedureTypes> {
  readonly state: State<P>;
  readonly reading: Reading;
  readonly outputs: Outputs;
  readonly events: readonly Event[];
  readonly snapshot: P['snapshot'];
}

/**
 * Longest time that a tick may count for: a late frame must not buy dwell or dose that was not
 * measured. What acts in the rest of it is counted apart, at most.
 */
const LONGEST_TICK_S = 0.1;

export function stepController<P extends ProcedureTypes>(
  procedure: Procedure<P>,
  config: P['config'],
  before: State<P>,
  given: Frame,
  requests: readonly Request[],
): ControllerStep<P> {
  const frame = soundFrame(given, before.timeS);
  const gapS = before.timeS === null ? 0 : Math.max(0, frame.timeS - before.timeS);
  const dtS = Math.min(gapS, LONGEST_TICK_S);
  const tick: Tick<P> = { procedure, config, gapS, dtS, events: [] };

  const decoded = stepDecode(before.signal, frame, before.commanded, config.unit.channels);
  const { reading } = decoded;
  const observed = observe(before, decoded.memory, reading, tick);
  tick.events.push(...procedure.noticed(observed.scene));
  const intents = intentsOf(procedure, observed, reading, requests);
  const alarmed = runAlarms(observed, reading, intents, tick);
  const batched = stepBatch(alarmed, reading, intents, tick);
  const proceeded = runProcedure(batched, frame, reading, intents, tick);
  const acted = runActuators(proceeded, reading, tick);
  const snapshot = procedure.snapshotOf(acted, reading, config);
  const turned = turnScreen(acted, intents, tick);
  const state = showPanel(turned, snapshot, config, procedure);
  return {
    state,
    reading,
    outputs: outputsOf(state, clearsTrips(state, procedure)),
    events: stamped(tick.events, frame.timeS),
    snapshot,
  };
}

/** A person works at the glass, and no cure goes on: the shield may have been lifted. */
const isHandWork = <P extends ProcedureTypes>(
  walk: P['walk'],
  { rowOf, holdsAs }: Procedure<P>,
): boolean => rowOf(walk).kind === 'confirm' && !CURE_PHASES.has(holdsAs(walk));

const NO_EVENTS: readonly Event[] = [];

const stamped = (events: readonly UnstampedEvent[], timeS: number): readonly Event[] =>
  events.length === 0 ? NO_EVENTS : events.map((event) => ({ timeS, ...event }));

/** Field by field: spreading a second object into a literal takes an engine microseconds a tick. */
function outputsOf(state: State<ProcedureTypes>, clearTrips: boolean): Outputs {
  const { pumpRatio, selector, ventOpen, lampEnabled, lampRatio } = state.commanded;
  const { buzzer, status, display } = state.shown.signals;
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
 * A board's latched protection is cleared at the start of a job and when a person resumes it: by
 * then a person has dealt with the cause. The outputs are safe in both cases, otherwise the board
 * would refuse.
 */
const clearsTrips = <P extends ProcedureTypes>(
  { batch, procedure: walk }: State<P>,
  { holdsAs }: Procedure<P>,
): boolean => batch === 'restarting' || (batch === 'running' && holdsAs(walk) === 'self-test');

function observe<P extends ProcedureTypes>(
  state: State<P>,
  signal: SignalMemory,
  reading: Reading,
  tick: Tick<P>,
): State<P> {
  const { procedure, config, dtS } = tick;
  // Field by field, as in `stateActing`.
  return {
    timeS: reading.timeS,
    signal,
    batch: state.batch,
    batchForS: state.batchForS + dtS,
    why: state.why,
    endReason: state.endReason,
    procedure: state.procedure,
    scene: procedure.watch(state, reading, config, tick),
    regulator: state.regulator,
    setPointPa: state.setPointPa,
    watch: watchAfter(state, signal, reading, tick),
    alarms: state.alarms,
    commanded: state.commanded,
    page: state.page,
    screen: {
      subject: state.screen.subject,
      shownS: state.screen.shownS + dtS,
      heededS: state.screen.heededS + dtS,
    },
    shown: state.shown,
    ended: state.ended,
  };
}

function watchAfter<P extends ProcedureTypes>(
  { watch, commanded, batch, procedure: walk }: State<P>,
  signal: SignalMemory,
  reading: Reading,
  tick: Tick<P>,
): Watch {
  const { chamberVolumeM3: volumeM3, pump } = tick.config.unit;
  const { atmospherePa, leakM3PerS = 0 }: ProcedureTypes['walk'] = walk;
  const known = {
    atmospherePa,
    leakM3PerS,
    dwelling: batch === 'running' && HOLDING_SET_POINT.has(tick.procedure.holdsAs(walk)),
    handWork: isHandWork(walk, tick.procedure),
  };
  const seen = watchedIn(reading, lightCountsOf(signal), known);
  return stepWatch(watch, commanded, seen, { volumeM3, pump }, tick);
}

function intentsOf<P extends ProcedureTypes>(
  { rowOf }: Procedure<P>,
  state: State<P>,
  reading: Reading,
  requests: readonly Request[],
): readonly Intent[] {
  const situation = {
    batch: state.batch,
    kind: rowOf(state.procedure).kind,
    alarm: foremost(state.alarms)?.row.id ?? null,
    helpOpen: state.page !== null,
    asks: heldQuestion(state.why),
    mustEnd: state.why?.mustEnd === true,
    shownS: state.screen.shownS,
  };
  const pressed = reading.pressed.map((button): Request => ({ kind: 'button', button }));
  const down = reading.link === 'up' && holdStaysDown(reading.ladder, state.batch);
  if (down && !reading.pressed.includes('hold')) pressed.push({ kind: 'button', button: 'hold' });
  return withHoldFirst([...pressed, ...requests].map((request) => intentOf(request, situation)));
}

function runAlarms<P extends ProcedureTypes>(
  state: State<P>,
  reading: Reading,
  intents: readonly Intent[],
  { procedure, config, gapS, events }: Tick<P>,
): State<P> {
  const acknowledged = intents.find((intent) => intent.kind === 'acknowledge')?.alarm ?? null;
  const reset = intents.some((intent) => intent.kind === 'restart');
  const over = isEnded(state.batch);
  const stepped = stepAlarms(
    state.alarms,
    config.unit.alarms,
    alarmContextOf(procedure, config, state, reading, gapS),
    { acknowledged, reset },
    // A finished batch cannot be held any more; dangers are still reported.
    ({ action, id }) => !over || action === 'abort' || id === acknowledged,
  );
  events.push(...stepped.events);
  if (stepped.records === state.alarms) return state;
  const scene = procedure.sceneAfter(state.scene, stepped.events);
  return { ...state, alarms: stepped.records, scene };
}

function runProcedure<P extends ProcedureTypes>(
  state: State<P>,
  frame: Frame,
  reading: Reading,
  intents: readonly Intent[],
  tick: Tick<P>,
): State<P> {
  if (state.batch !== 'running') return state;
  const { procedure, config, dtS } = tick;
  const { walk, events, lead } = procedure.step({ config, state, frame, reading, intents, dtS });
  if (events.length > 0) tick.events.push(...events);
  return leadBatch(stateActing(state, walk, state), lead, tick);
}

function runActuators<P extends ProcedureTypes>(
  state: State<P>,
  reading: Reading,
  tick: Tick<P>,
): State<P> {
  const { wanted, regulator, setPointPa } = regulate(state, reading, tick);
  const alarmStops = forcesStop(state.alarms);
  const { batch, procedure: walk } = state;
  const phase = tick.procedure.holdsAs(walk);
  const commanded = guard(wanted, {
    batch,
    phase,
    reading,
    alarmStops,
    shieldShown: state.watch.shield.seenOpenAtS !== null,
  });
  return stateActing(state, walk, { regulator, setPointPa, commanded });
}

/** The actuator values that the current phase asks for; the guard decides whether they pass. */
function regulate<P extends ProcedureTypes>(
  { batch, procedure: walk, regulator: before }: State<P>,
  reading: Reading,
  { procedure, config, dtS }: Tick<P>,
): Pick<State<P>, 'regulator' | 'setPointPa'> & { wanted: Actuators } {
  if (batch !== 'running') return { regulator: REGULATOR_AT_REST, setPointPa: null, wanted: SAFE };
  const demand = procedure.rowOf(walk).air(walk, procedure.figuresOf(config));
  const lampRatio = procedure.lampRatioOf(walk, config);
  const pressurePa = valueOrNull(reading.pressurePa);
  const { state: regulator, command } = stepRegulation(before, demand, pressurePa, dtS);
  return {
    regulator,
    setPointPa: 'setPointPa' in demand ? demand.setPointPa : null,
    wanted: {
      pumpRatio: command.pumpRatio,
      selector: command.selector,
      ventOpen: command.ventOpen,
      lampEnabled: lampRatio !== null,
      lampRatio: lampRatio ?? 0,
    },
  };
}
