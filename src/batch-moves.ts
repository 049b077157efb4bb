/**
 * The moves of a batch that a repair and a guided procedure share: through the ISA-88 table, by alarms
 * first, to its end, and on again when a person says so and nothing that held it still stands. Why
 * something is held is worded by each; which state follows is decided by `procedure/batch.ts`.
 */
import { isAtRest } from './at-rest.ts';
import type { BatchState, EndReason, Outcome, UnstampedEvent } from './events.ts';
import type { Reading } from './frame.ts';
import { type BatchCommand, isComingToRest, isEnded, nextBatchState } from './procedure/batch.ts';
import { type AlarmRecords, forcing, foremost, type Standing } from './safety/alarms.ts';

/** What of a controller's state a batch is. */
export interface Batched<Why> {
  readonly batch: BatchState;
  readonly batchForS: number;
  readonly why: Why;
  readonly page: number | null;
  readonly endReason: EndReason;
  readonly ended: boolean;
  readonly alarms: AlarmRecords;
  readonly watch: { readonly ventOpenForS: number };
}

export interface BatchMoves<Why, State extends Batched<Why>> {
  readonly command: (state: State, move: BatchCommand, why: Why, events: Told) => State;
  /** Whoever ends it first keeps the reason. */
  readonly endingBy: (state: State, reason: EndReason) => State;
  /** Sends the one `end` event, unless an alarm still waits to be seen by somebody who is there. */
  readonly end: (state: State, events: Told) => State;
  readonly heedAlarms: (state: State, events: Told) => State;
  /** Goes on, or is refused with the alarm that still stands. */
  readonly restart: (state: State, why: Why, events: Told) => State;
  /** Comes to rest, ends unread, or gives `resume` when it runs again. */
  readonly passTime: (state: State, reading: Reading, resume: Resume<State>, events: Told) => State;
}

type Told = { push: (event: UnstampedEvent) => unknown };

export interface Resume<State> {
  readonly atmospherePa: number | null;
  /** The state after the table has let it run again. */
  readonly run: (state: State) => State;
}

export interface Wording<Why, State> {
  /** In the words of the record. */
  readonly recordOf: (why: Why) => string;
  readonly alarmOf: (standing: Standing, refused: boolean) => Why;
  readonly outcomeOf: (state: State) => Outcome | null;
}

const RESTARTING_S = 1;
/** How long an end screen waits for somebody to read it. */
const END_SCREEN_S = 120;

/** Whether an alarm that holds or aborts is in force. */
export const forcesStop = (alarms: AlarmRecords): boolean =>
  forcing(alarms, 'hold') !== null || forcing(alarms, 'abort') !== null;

export function batchMoves<Why, State extends Batched<Why>>({
  recordOf,
  alarmOf,
  outcomeOf,
}: Wording<Why, State>): BatchMoves<Why, State> {
  const command: BatchMoves<Why, State>['command'] = (state, move, why, events) => {
    const to = nextBatchState(state.batch, move);
    if (to === null) return state;
    events.push({ kind: 'batch', from: state.batch, to, why: recordOf(why) });
    return { ...state, batch: to, batchForS: 0, why, page: null };
  };
  const endingBy: BatchMoves<Why, State>['endingBy'] = (state, endReason) =>
    isEnded(state.batch) || state.batch === 'aborting' ? state : { ...state, endReason };
  const end: BatchMoves<Why, State>['end'] = (state, events) => {
    const unseen = foremost(state.alarms) !== null && state.endReason !== 'interrupted';
    if (state.ended || (unseen && state.batchForS < END_SCREEN_S)) return state;
    const { endReason: reason, why } = state;
    events.push({ kind: 'end', reason, why: recordOf(why), outcome: outcomeOf(state) });
    return { ...state, ended: true };
  };
  const heedAlarms: BatchMoves<Why, State>['heedAlarms'] = (state, events) => {
    const abort = forcing(state.alarms, 'abort');
    if (abort !== null) {
      return command(endingBy(state, 'alarm'), 'abort', alarmOf(abort, false), events);
    }
    const hold = forcing(state.alarms, 'hold');
    return hold === null ? state : command(state, 'hold', alarmOf(hold, false), events);
  };
  const restart: BatchMoves<Why, State>['restart'] = (state, why, events) => {
    const standing = forcing(state.alarms, 'abort') ?? forcing(state.alarms, 'hold');
    if (standing === null) return command(state, 'restart', why, events);
    events.push({ kind: 'refused', request: 'go on', why: `${standing.row.title} still stands` });
    return { ...state, why: alarmOf(standing, true), page: null };
  };
  return {
    command,
    endingBy,
    end,
    heedAlarms,
    restart,
    passTime: (state, reading, { atmospherePa, run }, events) => {
      const { batch, batchForS, watch } = state;
      if (isComingToRest(batch)) {
        const resting = { batch, ventOpenForS: watch.ventOpenForS, atmospherePa };
        return isAtRest(resting, reading) ? command(state, 'settled', state.why, events) : state;
      }
      if (batch === 'restarting' && batchForS >= RESTARTING_S) return run(state);
      const nobodyReads = state.endReason === 'interrupted' || batchForS >= END_SCREEN_S;
      return isEnded(batch) && nobodyReads ? end(state, events) : state;
    },
  };
}
