/**
 * Composes what display, status lamp and buzzer show, from plain values, in one place. Line 1 always
 * says where the person is: `5.2 Title` a step, `5.2 || Held` held there, `5.2 ||? End job` asked
 * whether to end it, `5.2 ? Title` the longer
 * explanation, `5.2 !? Caution` what may hurt, `! Title` an alarm to acknowledge, `-- Title` the end.
 * Line 4 always says what the buttons do. What a button leads to is decided by the controller.
 */

import type { BatchState, Snapshot } from '../events.ts';
import type { DisplayLines, Signals } from '../frame.ts';
import { type PhaseId, STEP_NUMBERS } from '../phases.ts';
import type { AdviceKey, ButtonKey, Catalogue, StateKey } from './catalogue.ts';
import { daylightLine, type LiveValues, liveLine, marginLine } from './live-line.ts';
import {
  alarmPages,
  alarmWords,
  helpPages,
  reasonPages,
  type ShownAlarm,
  type ShownReason,
} from './page-words.ts';
import { ends, fitLine } from './text.ts';

export interface View {
  readonly catalogue: Catalogue;
  readonly batch: BatchState;
  readonly phase: PhaseId;
  readonly kind: 'automatic' | 'confirm' | 'question';
  readonly notClearAdvice: AdviceKey;
  /** The unacknowledged alarm of highest rank. */
  readonly alarm: ShownAlarm | null;
  /** Whether any alarm that is not a mere warning is in force. */
  readonly alarmStops: boolean;
  /** Why the job is held, stopped or aborted. */
  readonly why: ShownReason;
  /** A held job asks whether it is to be ended. */
  readonly asksEnd: boolean;
  /** Page of the longer explanation; null while it is closed. */
  readonly page: number | null;
  readonly live: LiveValues;
  readonly snapshot: Snapshot;
}

export function composeSignals(view: View): Signals {
  return { display: composeDisplay(view), status: statusOf(view), buzzer: buzzerOf(view) };
}

function composeDisplay(view: View): DisplayLines {
  const { states } = view.catalogue;
  if (view.alarm !== null) return alarmScreen(view.alarm, view);
  switch (view.batch) {
    case 'stopped':
    case 'aborted':
    case 'complete':
      return endScreen(view, view.batch);
    case 'holding':
    case 'restarting':
      return screen(heldTitle(view, view.batch), [states.outputsOff, states.wait], '');
    case 'held':
      return heldScreen(view);
    case 'stopping':
    case 'aborting':
      return screen(`-- ${states[view.batch]}`, [states.makingSafe, states.outputsOff], '');
    default:
      return view.page === null ? phaseScreen(view) : helpScreen(view, view.page);
  }
}

function phaseScreen(view: View): DisplayLines {
  const { phase, kind, catalogue, live, snapshot } = view;
  const { title, lines } = catalogue.prompts[phase];
  const [first, second] = lines;
  return screen(
    `${STEP_NUMBERS[phase]} ${title}`,
    [
      liveLine(phase, live, snapshot, catalogue) ?? first,
      marginLine(phase, live, snapshot, catalogue) ??
        daylightLine(kind !== 'automatic', live, catalogue) ??
        second,
    ],
    buttonLine(view, kind),
  );
}

function helpScreen(view: View, page: number): DisplayLines {
  const { phase, catalogue } = view;
  const all = helpPages(view);
  const shown = all[page % all.length];
  const title =
    shown?.caution === true
      ? `!? ${catalogue.states.caution}`
      : `? ${catalogue.prompts[phase].title}`;
  const buttons = buttonLine(view, 'help', pageMark(page, all.length));
  return screen(`${STEP_NUMBERS[phase]} ${title}`, shown?.lines ?? [], buttons);
}

function alarmScreen(alarm: ShownAlarm, view: View): DisplayLines {
  const page = view.page ?? 0;
  const all = alarmPages(alarm, view.catalogue);
  const { title } = alarmWords(alarm, view.catalogue);
  const buttons = buttonLine(view, 'alarm', pageMark(page, all.length));
  return screen(`! ${title}`, all[page % all.length] ?? [], buttons);
}

/** The last line; where there are pages, their mark takes its right end. */
function buttonLine({ catalogue }: View, key: ButtonKey, mark?: string): string {
  const [left, right] = catalogue.buttons[key];
  return ends(left, mark ?? right);
}

const pageMark = (page: number, count: number): string => `${(page % count) + 1}/${count}`;

const heldTitle = ({ phase, catalogue }: View, state: StateKey): string =>
  `${STEP_NUMBERS[phase]} || ${catalogue.states[state]}`;

const endAskedTitle = ({ phase, catalogue }: View): string =>
  `${STEP_NUMBERS[phase]} ||? ${catalogue.states.endAsked}`;

function heldScreen(view: View): DisplayLines {
  const page = view.page ?? 0;
  const all = reasonPages(view.why, view.catalogue);
  const mark = all.length > 1 ? pageMark(page, all.length) : '';
  const held = view.alarmStops ? 'heldByAlarm' : 'held';
  const buttons = buttonLine(view, view.asksEnd ? 'endAsked' : held, mark);
  const title = view.asksEnd ? endAskedTitle(view) : heldTitle(view, 'held');
  return screen(title, all[page % all.length] ?? [], buttons);
}

function endScreen(view: View, batch: 'stopped' | 'aborted' | 'complete'): DisplayLines {
  const { states, buttons } = view.catalogue;
  const page = view.page ?? 0;
  const all = reasonPages(view.why, view.catalogue);
  const [left, more] = buttons.end;
  const right = all.length > 1 ? `${more} ${pageMark(page, all.length)}` : '';
  return screen(`-- ${states[batch]}`, all[page % all.length] ?? [], ends(left, right));
}

function screen(title: string, text: readonly string[], buttons: string): DisplayLines {
  return [fitLine(title), fitLine(text[0] ?? ''), fitLine(text[1] ?? ''), fitLine(buttons)];
}

/** IEC 60073: red danger, yellow abnormal, blue a person must act, green normal. */
function statusOf({ alarm, alarmStops, batch, kind }: View): Signals['status'] {
  if (alarm?.action === 'abort' || batch === 'aborting' || batch === 'aborted') {
    return { colour: 'red', flashing: alarm !== null };
  }
  if (alarm !== null || alarmStops) return { colour: 'yellow', flashing: alarm !== null };
  if (batch === 'running') {
    return { colour: kind === 'automatic' ? 'green' : 'blue', flashing: false };
  }
  return { colour: batch === 'complete' ? 'green' : 'blue', flashing: false };
}

function buzzerOf({ alarm, batch, kind, live }: View): Signals['buzzer'] {
  if (alarm !== null) return alarm.action === 'warn' ? 'once' : 'repeating';
  const asks = batch === 'running' && kind !== 'automatic' && live.phaseElapsedS < 0.5;
  return asks ? 'once' : 'off';
}
