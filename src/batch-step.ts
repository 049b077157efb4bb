/**
 * Moves the batch through its ISA-88 states: alarms first, then people, then the passing of time.
 * The first cause of an abort is kept. A held job goes on only when a person says so and nothing
 * that held it still stands; it never goes on by itself.
 */
import type { ControllerState, Tick } from './controller-state.ts';
import type { EndReason, UnstampedEvent } from './events.ts';
import type { Reading } from './frame.ts';
import type { Intent } from './intents.ts';
import { type BatchCommand, isComingToRest, isEnded, nextBatchState } from './procedure/batch.ts';
import { enteredEvent, type Lead, resume } from './procedure/procedure.ts';
import { isVented } from './procedure/regulation.ts';
import { type AlarmRecords, forcing, foremost, type Standing } from './safety/alarms.ts';

/** Without a believable pressure, an open vent has let down this volume many times over by then. */
const VENT_SURELY_DONE_S = 3;
/** An abort that the vent does not follow still ends. */
const ABORT_ENDS_AFTER_S = 6;
/** By then a vent that does not follow has raised its alarm; what is left is a drifted zero. */
const REST_ENDS_AFTER_S = 10;
const RESTARTING_S = 1;
/** How long an end screen waits for somebody to read it. */
const END_SCREEN_S = 120;

/** Whether an alarm that holds or aborts is in force. */
export function forcesStop(alarms: AlarmRecords): boolean {
  return forcing(alarms, 'hold') !== null || forcing(alarms, 'abort') !== null;
}

export function stepBatch(
  state: ControllerState,
  reading: Reading,
  intents: readonly Intent[],
  { events }: Pick<Tick, 'events'>,
): ControllerState {
  const started = state.batch === 'idle' ? begin(state, events) : state;
  const alarmed = heedAlarms(started, events);
  const asked = intents.reduce((now, intent) => heedPerson(now, intent, events), alarmed);
  return passTime(asked, reading, events);
}

/** What the procedure itself asks of the batch. */
export function leadBatch(
  state: ControllerState,
  lead: Lead,
  events: UnstampedEvent[],
): ControllerState {
  switch (lead) {
    case null:
      return state;
    case 'hold':
      return command(state, 'hold', 'This step could not be finished.', events);
    case 'stop':
      return command(
        stoppedBy(state, 'stopped-by-person'),
        'stop',
        'You chose to stop here.',
        events,
      );
    case 'finish':
      return command(stoppedBy(state, 'completed'), 'finish', 'The repair is done.', events);
  }
}

function begin(state: ControllerState, events: UnstampedEvent[]): ControllerState {
  const running = command(state, 'start', 'The unit was started.', events);
  events.push(enteredEvent(running.procedure));
  return running;
}

function heedAlarms(state: ControllerState, events: UnstampedEvent[]): ControllerState {
  const abort = forcing(state.alarms, 'abort');
  if (abort !== null) {
    return command(stoppedBy(state, 'alarm'), 'abort', whyOf(abort), events);
  }
  const hold = forcing(state.alarms, 'hold');
  return hold === null ? state : command(state, 'hold', whyOf(hold), events);
}

const whyOf = ({ row, record }: Standing): string => `${row.title}. ${record.cause}. ${row.remedy}`;

function heedPerson(
  state: ControllerState,
  intent: Intent,
  events: UnstampedEvent[],
): ControllerState {
  switch (intent.kind) {
    case 'refused':
      events.push(intent);
      return state;
    case 'end':
      return end(state, events);
    case 'hold':
      return command(state, 'hold', intent.why, events);
    case 'restart':
      return restart(state, events);
    case 'stop':
      return isEnded(state.batch) ? end(state, events) : stop(state, intent, events);
    default:
      return state;
  }
}

function stop(
  state: ControllerState,
  { by, why }: Extract<Intent, { kind: 'stop' }>,
  events: UnstampedEvent[],
): ControllerState {
  const reason = by === 'interrupt' ? 'interrupted' : 'stopped-by-person';
  return command(stoppedBy(state, reason), 'stop', why, events);
}

function restart(state: ControllerState, events: UnstampedEvent[]): ControllerState {
  const standing = forcing(state.alarms, 'abort') ?? forcing(state.alarms, 'hold');
  if (standing === null) return command(state, 'restart', 'You let the job go on.', events);
  const { title } = standing.row;
  events.push({ kind: 'refused', request: 'go on', why: `${title} still stands` });
  return { ...state, why: `Cannot go on yet. ${whyOf(standing)}`, page: null };
}

function passTime(
  state: ControllerState,
  reading: Reading,
  events: UnstampedEvent[],
): ControllerState {
  const { batch, batchForS } = state;
  if (isComingToRest(batch)) {
    return isAtRest(state, reading) ? command(state, 'settled', state.why, events) : state;
  }
  if (batch === 'restarting' && batchForS >= RESTARTING_S) {
    const running = command(state, 'settled', 'All is well again.', events);
    const procedure = resume(running.procedure);
    events.push(enteredEvent(procedure));
    return { ...running, procedure };
  }
  const nobodyReads = state.endReason === 'interrupted' || batchForS >= END_SCREEN_S;
  return isEnded(batch) && nobodyReads ? end(state, events) : state;
}

function isAtRest({ batch, watch, procedure }: ControllerState, { pressurePa }: Reading): boolean {
  if (batch === 'aborting' && watch.ventOpenForS >= ABORT_ENDS_AFTER_S) return true;
  const { atmospherePa } = procedure;
  if (!pressurePa.ok || atmospherePa === null) return watch.ventOpenForS >= VENT_SURELY_DONE_S;
  return isVented(pressurePa.value, atmospherePa) || watch.ventOpenForS >= REST_ENDS_AFTER_S;
}

/** Sends the one `end` event, unless an alarm still waits to be seen by somebody who is there. */
function end(state: ControllerState, events: UnstampedEvent[]): ControllerState {
  const unseen = foremost(state.alarms) !== null && state.endReason !== 'interrupted';
  if (state.ended || (unseen && state.batchForS < END_SCREEN_S)) return state;
  const { endReason: reason, why, procedure } = state;
  events.push({ kind: 'end', reason, why, outcome: procedure.outcome });
  return { ...state, ended: true };
}

function stoppedBy(state: ControllerState, endReason: EndReason): ControllerState {
  const over = isEnded(state.batch) || state.batch === 'aborting';
  return over ? state : { ...state, endReason };
}

function command(
  state: ControllerState,
  batchCommand: BatchCommand,
  why: string,
  events: UnstampedEvent[],
): ControllerState {
  const to = nextBatchState(state.batch, batchCommand);
  if (to === null) return state;
  events.push({ kind: 'batch', from: state.batch, to, why });
  return { ...state, batch: to, batchForS: 0, why, page: null };
}
