/**
 * Moves the batch through its ISA-88 states: alarms first, then people, then the passing of time.
 * The first cause of an abort is kept. A held job goes on only when a person says so and nothing
 * that held it still stands; it never goes on by itself.
 */
import { batchMoves } from './batch-moves.ts';
import type { ControllerState, Reason, Tick } from './controller-state.ts';
import type { UnstampedEvent } from './events.ts';
import type { Reading } from './frame.ts';
import type { Intent } from './intents.ts';
import type { ShownAlarm, ShownReason } from './panel/page-words.ts';
import { isEnded } from './procedure/batch.ts';
import { enteredEvent, type Lead, resume } from './procedure/procedure.ts';
import type { Standing } from './safety/alarms.ts';

const STEP_UNFINISHED: Reason = {
  record: 'This step could not be finished.',
  shown: { say: 'step-unfinished' },
};
const STOPPED_BY_CHOICE: Reason = {
  record: 'You chose to stop here.',
  shown: { say: 'stopped-by-choice' },
};
const REPAIR_DONE: Reason = { record: 'The repair is done.', shown: { say: 'repair-done' } };
const BY_HAND: ShownReason = { say: 'held-by-hand' };
const END_ASKED = { shown: { say: 'end-asked' } } as const;
/** A job that runs does not show why. */
const STARTED: Reason = { record: 'The unit was started.', shown: BY_HAND };
const LET_GO_ON: Reason = { record: 'You let the job go on.', shown: BY_HAND };
const ALL_WELL: Reason = { record: 'All is well again.', shown: BY_HAND };

export function stepBatch(
  state: ControllerState,
  reading: Reading,
  intents: readonly Intent[],
  { events }: Pick<Tick, 'events'>,
): ControllerState {
  const started = state.batch === 'idle' ? begin(state, events) : state;
  const alarmed = heedAlarms(started, events);
  const asked = intents.reduce((now, intent) => heedPerson(now, intent, events), alarmed);
  const { atmospherePa } = asked.procedure;
  const resume = { atmospherePa, run: (now: ControllerState) => runAgain(now, events) };
  return passTime(asked, reading, resume, events);
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
      return command(state, 'hold', STEP_UNFINISHED, events);
    case 'stop':
      return command(endingBy(state, 'stopped-by-person'), 'stop', STOPPED_BY_CHOICE, events);
    case 'finish':
      return command(endingBy(state, 'completed'), 'finish', REPAIR_DONE, events);
  }
}

function begin(state: ControllerState, events: UnstampedEvent[]): ControllerState {
  const running = command(state, 'start', STARTED, events);
  events.push(enteredEvent(running.procedure));
  return running;
}

/** The alarm as the display tells it, in the language of its catalogue. */
export function shownAlarm({ row, record }: Standing): ShownAlarm {
  const { expected, seen } = record.told ?? NOTHING_TOLD;
  return { id: row.id, action: row.action, expected, seen };
}
const NOTHING_TOLD = { expected: { say: 'no-reading' }, seen: { say: 'no-reading' } } as const;

const whyOf = (standing: Standing, refused: boolean): Reason => ({
  record: `${refused ? 'Cannot go on yet. ' : ''}${recordOf(standing)}`,
  shown: { alarm: shownAlarm(standing), refused },
});
const recordOf = ({ row, record }: Standing): string =>
  `${row.title}. ${record.told?.cause ?? ''}. ${row.remedy}`;

const { command, endingBy, end, heedAlarms, restart, passTime } = batchMoves<
  Reason,
  ControllerState
>({
  recordOf: ({ record }) => record,
  alarmOf: whyOf,
  outcomeOf: ({ procedure }) => procedure.outcome,
});

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
      return command(state, 'hold', { record: intent.why, shown: BY_HAND }, events);
    case 'restart':
      return restart(state, LET_GO_ON, events);
    case 'ask-end':
      return { ...state, why: { ...END_ASKED, record: state.why.record, heldFor: state.why } };
    case 'stay-held':
      return { ...state, why: state.why.heldFor ?? state.why };
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
  const shown: ShownReason = { say: by === 'interrupt' ? 'interrupted' : 'stopped-held' };
  return command(endingBy(state, reason), 'stop', { record: why, shown }, events);
}

function runAgain(state: ControllerState, events: UnstampedEvent[]): ControllerState {
  const running = command(state, 'settled', ALL_WELL, events);
  const procedure = resume(running.procedure);
  events.push(enteredEvent(procedure));
  return { ...running, procedure };
}
