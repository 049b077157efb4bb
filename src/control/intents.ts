/**
 * The meaning of a button on the screen that was shown when it was pressed. One table of
 * situations, so that a button never means two things at once. The controller decides what follows
 * from a meaning.
 */
import type { Answer, BatchState } from '../core/events.ts';
import type { Button, Request } from '../core/frame.ts';
import { isEnded } from '../procedure/batch.ts';
import type { PhaseKind } from '../procedure/phase.ts';

export interface Situation {
  readonly batch: BatchState;
  readonly kind: PhaseKind;
  /** The alarm on the screen, by its id. */
  readonly alarm: string | null;
  readonly helpOpen: boolean;
  /** A held job asks whether to end it. */
  readonly asksEnd: boolean;
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
 * the change, to read two short lines and to move a finger.
 */
const SHORTEST_READING_S = 1.5;

export function intentOf(request: Request, situation: Situation): Intent {
  switch (request.kind) {
    case 'hold':
      return { kind: 'hold', why: 'Held from the console.' };
    case 'stop':
      return request;
    case 'enter':
      return asksNumber(situation) ? request : refused('number', 'no number is asked for');
    case 'button':
      if (request.button !== 'yes' && asksNumber(situation)) {
        return { kind: 'dial', button: request.button };
      }
      return situation.shownS < SHORTEST_READING_S
        ? earlyButton(request.button, situation)
        : buttonIntent(request.button, situation);
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
 * Nothing is answered before a screen could be read. NO means "hold" on the screens between the
 * questions, and a person who sees a leg grow presses it without reading on: a running job is held.
 */
const earlyButton = (button: Button, { batch }: Situation): Intent =>
  button === 'no' && batch === 'running'
    ? hold()
    : refused(button, 'pressed before the screen could be read');

function buttonIntent(button: Button, situation: Situation): Intent {
  const { batch, kind, alarm, helpOpen, asksEnd } = situation;
  if (alarm !== null) return alarmButton(button, alarm);
  if (button === 'more') return { kind: 'turn-page' };
  if (isEnded(batch))
    return button === 'yes' ? { kind: 'end' } : refused(button, 'the job is over');
  if (batch === 'held') return asksEnd ? endButton(button) : heldButton(button);
  if (batch !== 'running') return refused(button, `the job is ${batch}`);
  if (helpOpen) return button === 'yes' ? { kind: 'close-help' } : hold();
  return runningButton(button, kind);
}

function alarmButton(button: Button, alarm: string): Intent {
  if (button === 'yes') return { kind: 'acknowledge', alarm };
  return button === 'more' ? { kind: 'turn-page' } : refused(button, 'an alarm is on the screen');
}

function heldButton(button: 'yes' | 'no'): Intent {
  return button === 'yes' ? { kind: 'restart' } : { kind: 'ask-end' };
}

function endButton(button: 'yes' | 'no'): Intent {
  return button === 'yes'
    ? { kind: 'stop', by: 'person', why: 'You stopped the held job.' }
    : { kind: 'stay-held' };
}

function runningButton(button: 'yes' | 'no', kind: PhaseKind): Intent {
  if (kind === 'question') return { kind: 'answer', answer: button };
  if (button === 'no') return hold();
  return kind === 'confirm' || kind === 'entry'
    ? { kind: 'answer', answer: 'yes' }
    : refused(button, 'nothing was asked');
}

const hold = (): Intent => ({ kind: 'hold', why: 'You held the job.' });

const refused = (request: string, why: string): Intent => ({ kind: 'refused', request, why });
