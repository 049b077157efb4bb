/**
 * The meaning of a button on the screen that was shown when it was pressed. One table of
 * situations, so that a button never means two things at once. The controller decides what follows
 * from a meaning.
 */
import type { Answer, BatchState } from '../core/events.ts';
import type { Button, LadderReading, Request } from '../core/frame.ts';
import { isEnded } from '../procedure/batch.ts';
import type { PhaseKind } from '../procedure/phase.ts';
import type { HeldQuestion } from './controller-state.ts';

export interface Situation {
  readonly batch: BatchState;
  readonly kind: PhaseKind;
  /** The alarm on the screen, by its id. */
  readonly alarm: string | null;
  readonly helpOpen: boolean;
  /** What a held job asks; null where it asks nothing. */
  readonly asks: HeldQuestion | null;
  /** A held job that a person may only end. */
  readonly mustEnd: boolean;
  /** How long the screen has had its present subject, s. */
  readonly shownS: number;
}

export type Intent =
  | { readonly kind: 'acknowledge'; readonly alarm: string }
  | { readonly kind: 'answer'; readonly answer: Answer }
  /** On a step that asks for a number: NO lowers it, MORE raises it, or it was typed. */
  | { readonly kind: 'dial'; readonly button: 'no' | 'more' }
  | { readonly kind: 'enter'; readonly valueSI: number }
  | { readonly kind: 'hold'; readonly why: string }
  /** Whether the reason that a held job asks for is why HOLD was pressed. */
  | { readonly kind: 'say-why'; readonly answer: Answer }
  | { readonly kind: 'restart' }
  /** Whether to end a held job: to be asked, or answered with "stay held". */
  | { readonly kind: 'ask-end' }
  | { readonly kind: 'stay-held' }
  | { readonly kind: 'stop'; readonly by: 'person' | 'interrupt'; readonly why: string }
  | { readonly kind: 'turn-page' }
  | { readonly kind: 'close-help' }
  | { readonly kind: 'end' }
  | { readonly kind: 'refused'; readonly request: string; readonly why: string };

/**
 * A press sooner than this after the screen changed was meant for the previous one: time to notice
 * the change, to read two short lines and to move a finger. HOLD needs no reading.
 */
const SHORTEST_READING_S = 1.5;

export function intentOf(request: Request, situation: Situation): Intent {
  switch (request.kind) {
    case 'hold':
      return holdIntent('Held from the console.', situation);
    case 'stop':
      return request;
    case 'enter':
      return asksNumber(situation) ? request : refused('number', 'no number is asked for');
    case 'button':
      return request.button === 'hold'
        ? holdIntent('HOLD was pressed.', situation)
        : otherButton(request.button, situation);
  }
}

/** Whether the present screen asks for a number that is dialled or typed. */
export const asksNumber = ({
  batch,
  kind,
  alarm,
  helpOpen,
}: Pick<Situation, 'batch' | 'kind' | 'alarm' | 'helpOpen'>): boolean =>
  kind === 'entry' && batch === 'running' && alarm === null && !helpOpen;

/**
 * While a finger stays on HOLD, nothing runs. A press that was lost with the link is thus made good
 * by the finger that is still there.
 */
export const holdStaysDown = (ladder: LadderReading | null, batch: BatchState): boolean =>
  ladder === 'hold' && ['idle', 'running', 'restarting'].includes(batch);

/** HOLD goes before all else: what is pressed in the same moment is not heeded, but for an end. */
export function withHoldFirst(intents: readonly Intent[]): readonly Intent[] {
  if (!intents.some(({ kind }) => kind === 'hold')) return intents;
  return intents.filter(({ kind }) => ['hold', 'stop', 'refused'].includes(kind));
}

/** One meaning at every moment: make safe now, then ask why. A job that is over is safe. */
function holdIntent(why: string, { batch }: Situation): Intent {
  const over = isEnded(batch) || batch === 'stopping' || batch === 'aborting';
  return over ? refused('hold', 'the job is over and made safe') : { kind: 'hold', why };
}

type Other = Exclude<Button, 'hold'>;

function otherButton(button: Other, situation: Situation): Intent {
  if (button !== 'yes' && asksNumber(situation)) return { kind: 'dial', button };
  return situation.shownS < SHORTEST_READING_S
    ? refused(button, 'pressed before the screen could be read')
    : buttonIntent(button, situation);
}

function buttonIntent(button: Other, situation: Situation): Intent {
  const { batch, kind, alarm, helpOpen } = situation;
  if (alarm !== null) return alarmButton(button, alarm);
  if (button === 'more') return { kind: 'turn-page' };
  if (isEnded(batch))
    return button === 'yes' ? { kind: 'end' } : refused(button, 'the job is over');
  if (batch === 'held') return heldButton(button, situation);
  if (batch !== 'running') return refused(button, `the job is ${batch}`);
  if (helpOpen) return button === 'yes' ? { kind: 'close-help' } : refused(button, 'help is open');
  return runningButton(button, kind);
}

function alarmButton(button: Other, alarm: string): Intent {
  if (button === 'yes') return { kind: 'acknowledge', alarm };
  return button === 'more' ? { kind: 'turn-page' } : refused(button, 'an alarm is on the screen');
}

function heldButton(button: 'yes' | 'no', { asks, mustEnd }: Situation): Intent {
  if (asks === 'end') return endButton(button);
  if (asks !== null) return { kind: 'say-why', answer: button };
  if (button === 'no') return { kind: 'ask-end' };
  return mustEnd ? refused(button, 'this job can only be ended') : { kind: 'restart' };
}

function endButton(button: 'yes' | 'no'): Intent {
  return button === 'yes'
    ? { kind: 'stop', by: 'person', why: 'You stopped the held job.' }
    : { kind: 'stay-held' };
}

function runningButton(button: 'yes' | 'no', kind: PhaseKind): Intent {
  if (kind === 'question') return { kind: 'answer', answer: button };
  return button === 'yes' && kind !== 'automatic'
    ? { kind: 'answer', answer: 'yes' }
    : refused(button, 'nothing was asked that it answers');
}

const refused = (request: string, why: string): Intent => ({ kind: 'refused', request, why });
