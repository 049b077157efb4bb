/**
 * Moves a guided procedure through the ISA-88 states, by the same table as a repair: alarms first,
 * then people, then the passing of time. A held one goes on only when a person says so and nothing
 * that held it still stands, and then does the part again in which it was held.
 */
import { batchMoves } from './batch-moves.ts';
import type { EndReason } from './events.ts';
import type { Reading } from './frame.ts';
import { resumeProgress, stepOf } from './guided/progress.ts';
import { RECORD_WORDS } from './guided/record-words.ts';
import type { GuidedEventBody, GuidedState, GuidedWhy } from './guided-state.ts';
import type { Intent } from './intents.ts';
import { isEnded } from './procedure/batch.ts';
import { foremost } from './safety/alarms.ts';

type Events = GuidedEventBody[];

export function stepGuidedBatch(
  state: GuidedState,
  reading: Reading,
  intents: readonly Intent[],
  events: Events,
): GuidedState {
  const started = state.batch === 'idle' ? begin(state, events) : state;
  const alarmed = heedAlarms(started, events);
  const asked = intents.reduce((now, intent) => heedPerson(now, intent, events), alarmed);
  const { atmospherePa } = asked.progress;
  const resume = { atmospherePa, run: (now: GuidedState) => runAgain(now, events) };
  return passTime(asked, reading, resume, events);
}

/** What the procedure itself asks for: its end, or a stop because a step came too late. */
export function leadGuided(
  state: GuidedState,
  lead: 'late' | 'finish' | null,
  passed: boolean,
  events: Events,
): GuidedState {
  if (lead === null) return state;
  if (lead === 'finish') {
    if (state.progress.kept === false) {
      const why = { say: 'thrownAway' } as const;
      return finish(state, 'stopped-by-person', why, events);
    }
    return finish(state, 'completed', { say: passed ? 'kept' : 'keptNotPassed' }, events);
  }
  const { step } = state.progress;
  const nobody = RECORD_WORDS.steps[step].late === null;
  const why: GuidedWhy = nobody ? { say: 'nobodyAnswered' } : { late: step };
  return command(endingBy(state, nobody ? 'stopped-by-person' : 'alarm'), 'stop', why, events);
}

/** In the words of the record. */
export function whyWords(why: GuidedWhy): string {
  if ('say' in why) return RECORD_WORDS.ends[why.say];
  if ('late' in why) return RECORD_WORDS.steps[why.late].late ?? '';
  if ('told' in why) return why.told;
  if ('heldFor' in why) return whyWords(why.heldFor);
  const { row, record } = why.standing;
  const words = `${row.title}. ${record.told?.cause ?? ''}. ${row.remedy}`;
  return why.refused ? `Cannot go on yet. ${words}` : words;
}

const { command, endingBy, end, heedAlarms, restart, passTime } = batchMoves<
  GuidedWhy,
  GuidedState
>({
  recordOf: whyWords,
  alarmOf: (standing, refused) => ({ standing, refused }),
  outcomeOf: () => null,
});

function begin(state: GuidedState, events: Events): GuidedState {
  events.push({ kind: 'step', step: state.progress.step });
  return { ...state, batch: 'running', batchForS: 0 };
}

function heedPerson(state: GuidedState, intent: Intent, events: Events): GuidedState {
  switch (intent.kind) {
    case 'refused':
      events.push(intent);
      return state;
    case 'end':
      return end(state, events);
    case 'hold':
      return command(state, 'hold', { say: 'held' }, events);
    case 'restart':
      return restart(state, state.why, events);
    case 'ask-end':
      return { ...state, why: { heldFor: state.why } };
    case 'stay-held':
      return 'heldFor' in state.why ? { ...state, why: state.why.heldFor } : state;
    case 'stop': {
      if (isEnded(state.batch)) return end(state, events);
      const interrupted = intent.by === 'interrupt';
      const ending = endingBy(state, interrupted ? 'interrupted' : 'stopped-by-person');
      return command(
        ending,
        'stop',
        interrupted ? { told: intent.why } : { say: 'person' },
        events,
      );
    }
    default:
      return state;
  }
}

function runAgain(state: GuidedState, events: Events): GuidedState {
  const running = command(state, 'settled', state.why, events);
  const resumed = resumeProgress(running.progress);
  events.push({ kind: 'step', step: resumed.step });
  return { ...running, progress: resumed };
}

/** The result was read and decided upon: there is no end screen to read. */
function finish(
  state: GuidedState,
  reason: EndReason,
  why: GuidedWhy,
  events: Events,
): GuidedState {
  return end(command(endingBy(state, reason), 'finish', why, events), events);
}

/** How the buttons are to be understood on the screen in hand. */
export const asksNumber = ({ batch, alarms, progress, page }: GuidedState): boolean =>
  batch === 'running' &&
  foremost(alarms) === null &&
  page === null &&
  stepOf(progress).kind === 'entry';
