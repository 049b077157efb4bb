/**
 * One tick of a guided procedure: the same order as a repair's tick, with another procedure in its
 * place. Decode, people, alarms, batch, procedure, regulation, and the same guard with the last word.
 * Pure, synchronous and total. A step stands for a phase of a repair, so that alarms and interlocks
 * hold as they do there: no second set of rules has to be kept safe.
 */

import { forcesStop } from './batch-moves.ts';
import {
  type Button,
  type Frame,
  type Measured,
  type Reading,
  SAFE,
  valueOrNull,
} from './frame.ts';
import { type Hands, type Sampled, stepOf, stepProgress } from './guided/progress.ts';
import { type QuantityName, readingOf } from './guided/quantities.ts';
import type { ProcedureName } from './guided/step.ts';
import { guidedAlarmContext } from './guided-alarms.ts';
import { asksNumber, leadGuided, stepGuidedBatch } from './guided-batch.ts';
import { guidedResultOf } from './guided-result.ts';
import type {
  GuidedConfig,
  GuidedEventBody,
  GuidedRequest,
  GuidedState,
  GuidedStepResult,
} from './guided-state.ts';
import { guidedSnapshot, showGuided, turnGuidedPage } from './guided-view.ts';
import { type Intent, intentOf } from './intents.ts';
import { REGULATOR_AT_REST, stepRegulation } from './procedure/regulation.ts';
import { foremost, stepAlarms } from './safety/alarms.ts';
import { guard } from './safety/guard.ts';
import { stepWatch, watchedIn } from './safety/watch.ts';
import {
  type ChannelSettings,
  glassKOf,
  irradianceWPerM2Of,
  pressurePaOf,
} from './signal/channels.ts';
import { lightCountsOf, stepDecode } from './signal/decode.ts';

/** Time that a tick may count for, as in a repair. */
const LONGEST_TICK_S = 0.1;

interface Asked {
  readonly intents: readonly Intent[];
  readonly dialled: readonly Button[];
  readonly entered: number | null;
}

export function stepGuided(
  config: GuidedConfig,
  before: GuidedState,
  frame: Frame,
  requests: readonly GuidedRequest[],
): GuidedStepResult {
  const gapS = before.timeS === null ? 0 : Math.max(0, frame.timeS - before.timeS);
  const dtS = Math.min(gapS, LONGEST_TICK_S);
  const events: GuidedEventBody[] = [];

  const { channels } = config.unit;
  const { memory, reading } = stepDecode(before.signal, frame, before.commanded, channels);
  const observed: GuidedState = {
    ...before,
    timeS: reading.timeS,
    signal: memory,
    batchForS: before.batchForS + dtS,
    watch: stepWatch(
      before.watch,
      before.commanded,
      watchedIn(reading, lightCountsOf(memory)),
      dtS,
    ),
    screen: { ...before.screen, shownS: before.screen.shownS + dtS },
  };
  const asked = askedFor(observed, reading, requests);
  const alarmed = runAlarms(config, observed, reading, asked.intents, gapS, events);
  const batched = stepGuidedBatch(alarmed, reading, asked.intents, events);
  const seen = { reading, sampled: sampledOf(reading, frame, channels), dtS };
  const walked = runProgress(config, batched, seen, asked, events);
  const acted = runActuators(config, walked, reading, dtS);
  const state = showGuided(turnGuidedPage(acted, asked.intents), reading, config);
  return {
    state,
    outputs: { ...state.commanded, ...state.shown.signals, clearTrips: clearsTrips(state) },
    events: events.map((event) => ({ timeS: frame.timeS, ...event })),
    snapshot: guidedSnapshot(state, reading),
  };
}

/** As in a repair: at the start, and when a person lets it go on; the outputs are safe in both. */
const clearsTrips = ({ batch, progress }: GuidedState): boolean =>
  batch === 'restarting' || (batch === 'running' && stepOf(progress).alarmsOf === 'self-test');

function askedFor(state: GuidedState, reading: Reading, requests: readonly GuidedRequest[]): Asked {
  const dials = asksNumber(state);
  const pressed = reading.pressed.map((button): GuidedRequest => ({ kind: 'button', button }));
  const intents: Intent[] = [];
  const dialled: Button[] = [];
  let entered: number | null = null;
  for (const request of [...pressed, ...requests]) {
    if (request.kind === 'enter') {
      if (dials) entered = request.valueSI;
    } else if (dials && request.kind === 'button' && request.button !== 'yes') {
      dialled.push(request.button);
    } else {
      intents.push(intentOf(request, situationOf(state)));
    }
  }
  return { intents, dialled, entered };
}

function situationOf(state: GuidedState) {
  const { kind } = stepOf(state.progress);
  return {
    batch: state.batch,
    kind: kind === 'entry' ? ('confirm' as const) : kind,
    alarm: foremost(state.alarms)?.row.id ?? null,
    helpOpen: state.page !== null,
    asksEnd: 'heldFor' in state.why,
    shownS: state.screen.shownS,
  };
}

function runAlarms(
  config: GuidedConfig,
  state: GuidedState,
  reading: Reading,
  intents: readonly Intent[],
  gapS: number,
  events: GuidedEventBody[],
): GuidedState {
  const acknowledged = intents.find((intent) => intent.kind === 'acknowledge')?.alarm ?? null;
  const reset = intents.some((intent) => intent.kind === 'restart');
  const stepped = stepAlarms(
    state.alarms,
    config.unit.alarms,
    guidedAlarmContext(config, state, reading, gapS),
    { acknowledged, reset },
    () => true,
  );
  events.push(...stepped.events);
  return { ...state, alarms: stepped.records };
}

/**
 * Values of the counts as they were sampled, where a channel can be believed: a mean of many is truer
 * without the middle of three, which hides steps of the converter and ties neighbours together.
 */
function sampledOf(reading: Reading, { counts }: Frame, channels: ChannelSettings): Sampled {
  const { pressurePa, irradianceWPerM2, glassK } = reading;
  const value = (
    { ok }: Measured,
    count: number | null,
    convert: (count: number, channels: ChannelSettings) => number | null,
  ): number | null => (ok && count !== null ? convert(count, channels) : null);
  return {
    pressure: value(pressurePa, counts.pressure, pressurePaOf),
    light: value(irradianceWPerM2, counts.irradiance, irradianceWPerM2Of),
    temperature: value(glassK, counts.glassTemperature, glassKOf),
  };
}

/** What each procedure reads must be believable before it begins. */
const NEEDS: Readonly<Record<ProcedureName, readonly QuantityName[]>> = {
  pressure: ['pressure'],
  uv: ['pressure', 'light'],
  temperature: ['temperature'],
  health: ['pressure'],
};

function runProgress(
  config: GuidedConfig,
  state: GuidedState,
  { reading, sampled, dtS }: { reading: Reading; sampled: Sampled; dtS: number },
  { intents, dialled, entered }: Asked,
  events: GuidedEventBody[],
): GuidedState {
  if (state.batch !== 'running') return state;
  const { settings, procedure } = config;
  const ready =
    reading.trips.length === 0 &&
    NEEDS[procedure].every((quantity) => readingOf(quantity, reading) !== null);
  const answer = intents.find((intent) => intent.kind === 'answer')?.answer ?? null;
  const hands: Hands = { dialled, entered: entered ?? givenFor(config, state), answer };
  const world = { settings, ready, dtS, sampled };
  const walked = stepProgress(state.progress, reading, hands, world);
  const { progress, lead, refusedNumber } = walked;
  if (refusedNumber) {
    events.push({ kind: 'refused', request: 'number', why: 'no reference shows such a value' });
  }
  for (const point of progress.points.slice(state.progress.points.length)) {
    events.push({ kind: 'point', point });
  }
  if (progress.step !== state.progress.step) events.push({ kind: 'step', step: progress.step });
  const passed = lead === 'finish' && (guidedResultOf(config, progress)?.passed ?? false);
  return leadGuided({ ...state, progress }, lead, passed, events);
}

/** What was given beforehand is taken once, when the entry begins. */
function givenFor({ given }: GuidedConfig, { progress }: GuidedState): number | null {
  if (progress.entry === null || progress.elapsedS > 0) return null;
  return given[progress.points.filter(({ at }) => at !== 'ice').length] ?? null;
}

function runActuators(
  { settings }: GuidedConfig,
  state: GuidedState,
  reading: Reading,
  dtS: number,
): GuidedState {
  const { air, lamp, alarmsOf } = stepOf(state.progress);
  const { batch } = state;
  const doubt = { batch, phase: alarmsOf, reading, alarmStops: forcesStop(state.alarms) };
  if (batch !== 'running') {
    const commanded = guard(SAFE, doubt);
    return { ...state, regulator: REGULATOR_AT_REST, setPointPa: null, commanded };
  }
  const demand = air(state.progress, settings);
  const { state: regulator, command } = stepRegulation(
    state.regulator,
    demand,
    valueOrNull(reading.pressurePa),
    dtS,
  );
  const wanted = { ...command, lampEnabled: lamp, lampRatio: lamp ? 1 : 0 };
  const setPointPa = 'setPointPa' in demand ? demand.setPointPa : null;
  return { ...state, regulator, setPointPa, commanded: guard(wanted, doubt) };
}
