/**
 * Moves the batch through its ISA-88 states: alarms first, then people, then time. The first cause
 * of an abort is kept. A held batch resumes only when a person says so and no cause of the hold
 * still stands; it never resumes by itself. `procedure/batch.ts` decides which state follows, the
 * procedure what a reason says.
 */

import type { Answer, EndReason } from '../core/events.ts';
import type { Reading } from '../core/frame.ts';
import type { ShownAlarm } from '../panel/page-words.ts';
import { type BatchCommand, isComingToRest, isEnded, nextBatchState } from '../procedure/batch.ts';
import { type AlarmRecords, forcing, foremost, type Standing } from '../safety/alarms.ts';
import {
  type HeldQuestion,
  heldQuestion,
  type ProcedureTypes,
  type Reason,
  type ControllerState as State,
} from './controller-state.ts';
import type { Intent } from './intents.ts';
import type { Lead, Tick } from './procedure.ts';
import { isAtRest } from './safe-targets.ts';

const RESTARTING_S = 1;
/** How long an end screen waits to be read. */
const END_SCREEN_S = 120;

/** A running batch shows no reason. */
const STARTED = 'The unit was started.';
const LET_GO_ON = 'You let the job go on.';
const ALL_WELL = 'All is well again.';

/** Whether an alarm that holds or aborts is in force. */
export const forcesStop = (alarms: AlarmRecords): boolean =>
  forcing(alarms, 'hold') !== null || forcing(alarms, 'abort') !== null;

export function stepBatch<P extends ProcedureTypes>(
  state: State<P>,
  reading: Reading,
  intents: readonly Intent[],
  tick: Tick<P>,
): State<P> {
  const started = state.batch === 'idle' ? begin(state, tick) : state;
  const alarmed = heedAlarms(started, tick);
  const asked = intents.reduce((now, intent) => heedPerson(now, intent, tick), alarmed);
  return passTime(asked, reading, tick);
}

/** What the procedure itself asks of the batch. */
export function leadBatch<P extends ProcedureTypes>(
  state: State<P>,
  lead: Lead<P['say']>,
  tick: Tick<P>,
): State<P> {
  if (lead === null) return state;
  const { move, ending, reason, read } = lead;
  const moved = command(ending === null ? state : endingBy(state, ending), move, reason, tick);
  return read ? end(moved, tick) : moved;
}

/** The alarm as shown on the display, in the language of its catalogue. */
export function shownAlarm({ row, record }: Standing): ShownAlarm {
  const { expected, seen, atLimit } = record.finding ?? NO_FINDING;
  return { id: row.id, action: row.action, expected, seen: atLimit ? null : seen };
}
const NO_FINDING = {
  expected: { say: 'no-reading' },
  seen: { say: 'no-reading' },
  atLimit: false,
} as const;

function alarmReason(standing: Standing, refused: boolean): Reason<never> {
  const { row, record } = standing;
  const words = `${row.title}. ${record.finding?.cause ?? ''}. ${row.remedy}`;
  return {
    record: `${refused ? 'Cannot go on yet. ' : ''}${words}`,
    shown: { alarm: shownAlarm(standing), refused },
  };
}

function command<P extends ProcedureTypes>(
  state: State<P>,
  move: BatchCommand,
  why: Reason<P['say']>,
  tick: Tick<P>,
): State<P> {
  const moved = go(state, move, why.record, tick);
  return moved === state ? state : { ...moved, why: stillEnding(state, why) };
}

/** What may only be ended stays so, whatever comes next, until a person takes the reason back. */
const stillEnding = <P extends ProcedureTypes>(
  { why: before }: State<P>,
  why: Reason<P['say']>,
): Reason<P['say']> => (before?.mustEnd === true ? { ...why, mustEnd: true } : why);

/** A transition after which no screen shows a reason. */
function go<P extends ProcedureTypes>(
  state: State<P>,
  move: BatchCommand,
  why: string,
  { events }: Pick<Tick<P>, 'events'>,
): State<P> {
  const to = nextBatchState(state.batch, move);
  if (to === null) return state;
  events.push({ kind: 'batch', from: state.batch, to, why });
  return { ...state, batch: to, batchForS: 0, page: null };
}

/** The first cause of the end keeps its reason. */
const endingBy = <P extends ProcedureTypes>(state: State<P>, endReason: EndReason): State<P> =>
  isEnded(state.batch) || state.batch === 'aborting' ? state : { ...state, endReason };

/**
 * Sends the one `end` event, unless an alarm still waits for a person who is there to acknowledge
 * it.
 */
function end<P extends ProcedureTypes>(state: State<P>, { procedure, events }: Tick<P>): State<P> {
  const unseen = foremost(state.alarms) !== null && state.endReason !== 'interrupted';
  if (state.ended || (unseen && state.batchForS < END_SCREEN_S)) return state;
  const { endReason: reason, why } = state;
  const outcome = procedure.outcomeOf(state.procedure);
  events.push({ kind: 'end', reason, why: why?.record ?? '', outcome });
  return { ...state, ended: true };
}

function begin<P extends ProcedureTypes>(state: State<P>, tick: Tick<P>): State<P> {
  const running = go(state, 'start', STARTED, tick);
  tick.events.push(tick.procedure.entered(running.procedure));
  return running;
}

function heedAlarms<P extends ProcedureTypes>(state: State<P>, tick: Tick<P>): State<P> {
  const abort = forcing(state.alarms, 'abort');
  if (abort !== null) {
    return command(endingBy(state, 'alarm'), 'abort', alarmReason(abort, false), tick);
  }
  const hold = forcing(state.alarms, 'hold');
  return hold === null ? state : command(state, 'hold', alarmReason(hold, false), tick);
}

function heedPerson<P extends ProcedureTypes>(
  state: State<P>,
  intent: Intent,
  tick: Tick<P>,
): State<P> {
  switch (intent.kind) {
    case 'refused':
      tick.events.push(intent);
      return state;
    case 'end':
      return end(state, tick);
    case 'hold':
      return holdByPerson(state, intent, tick);
    case 'say-why':
      return sayWhy(state, intent.answer, tick);
    case 'restart':
      return restart(state, tick);
    case 'ask-end':
      return asking(state, 'end');
    case 'stay-held':
      return asking(state, null);
    case 'stop':
      return isEnded(state.batch) ? end(state, tick) : stop(state, intent, tick);
    default:
      return state;
  }
}

/** Makes safe what runs, and asks why; of a job that is held already it asks again. */
function holdByPerson<P extends ProcedureTypes>(
  state: State<P>,
  intent: Extract<Intent, { kind: 'hold' }>,
  tick: Tick<P>,
): State<P> {
  const why = tick.procedure.heldBy(intent);
  const held = command(state, 'hold', why, tick);
  const [first] = tick.procedure.holdQuestions;
  const isHeld = held.batch === 'holding' || held.batch === 'held';
  return isHeld && first !== undefined
    ? asking({ ...held, why: stillEnding(state, why) }, first)
    : held;
}

/** The next reason is asked for, or the person's own is on record and says what comes next. */
function sayWhy<P extends ProcedureTypes>(
  state: State<P>,
  answer: Answer,
  { procedure, config, events }: Tick<P>,
): State<P> {
  const { holdQuestions } = procedure;
  const at = holdQuestions.findIndex((question) => question === heldQuestion(state.why));
  const [asked, next] = holdQuestions.slice(Math.max(0, at));
  if (at < 0 || asked === undefined) return state;
  if (answer === 'no' && next !== undefined) return asking(state, next);
  const reason = answer === 'yes' ? asked : 'something-else';
  const said = procedure.heldFor(reason, state.procedure, config);
  events.push(...said.events);
  return { ...state, procedure: said.walk, why: said.why, page: null };
}

function asking<P extends ProcedureTypes>(
  state: State<P>,
  question: HeldQuestion | null,
): State<P> {
  if (state.why === null) return state;
  const { asks: _, ...why } = state.why;
  return { ...state, why: question === null ? why : { ...why, asks: question }, page: null };
}

/** Resumes, or is refused with the alarm that still stands. */
function restart<P extends ProcedureTypes>(state: State<P>, tick: Tick<P>): State<P> {
  const standing = forcing(state.alarms, 'abort') ?? forcing(state.alarms, 'hold');
  if (standing === null) return go(state, 'restart', LET_GO_ON, tick);
  const why = `${standing.row.title} still stands`;
  tick.events.push({ kind: 'refused', request: 'go on', why });
  return { ...state, why: alarmReason(standing, true), page: null };
}

function stop<P extends ProcedureTypes>(
  state: State<P>,
  intent: Extract<Intent, { kind: 'stop' }>,
  tick: Tick<P>,
): State<P> {
  const ending = intent.by === 'interrupt' ? 'interrupted' : 'stopped-by-person';
  return command(endingBy(state, ending), 'stop', tick.procedure.stoppedBy(intent), tick);
}

/** Comes to rest, runs again, or ends unread. */
function passTime<P extends ProcedureTypes>(
  state: State<P>,
  reading: Reading,
  tick: Tick<P>,
): State<P> {
  const { batch, batchForS, watch } = state;
  if (isComingToRest(batch)) {
    const { atmospherePa } = state.procedure;
    const resting = { batch, ventOpenForS: watch.ventOpenForS, atmospherePa };
    return isAtRest(resting, reading) ? settle(state, tick) : state;
  }
  if (batch === 'restarting' && batchForS >= RESTARTING_S) return runAgain(state, tick);
  const nobodyReads = state.endReason === 'interrupted' || batchForS >= END_SCREEN_S;
  return isEnded(batch) && nobodyReads ? end(state, tick) : state;
}

/** Comes to rest for the reason for which it was stopped. */
const settle = <P extends ProcedureTypes>(state: State<P>, tick: Tick<P>): State<P> =>
  go(state, 'settled', state.why?.record ?? '', tick);

function runAgain<P extends ProcedureTypes>(state: State<P>, tick: Tick<P>): State<P> {
  const running = go(state, 'settled', ALL_WELL, tick);
  const procedure = tick.procedure.resume(running.procedure);
  tick.events.push(tick.procedure.entered(procedure));
  return { ...running, procedure };
}
