/**
 * Composes what display, status lamp and buzzer show, from plain values, in one place. Line 1 always
 * says where the person is: `5.2 Title` a step, `5.2 || Title` held there, `5.2 ? Title` the longer
 * explanation, `! Title` an alarm to acknowledge, `-- Title` the end. Line 4 always says what the
 * buttons do. What a button leads to is decided by the controller.
 */
import {
  type AlarmAction,
  type BatchState,
  type PhaseId,
  type Snapshot,
  STEP_NUMBERS,
} from '../events.ts';
import type { DisplayLines, Signals } from '../frame.ts';
import { type LiveValues, liveLine, marginLine } from './live-line.ts';
import { NOT_CLEAR_ADVICE_EN, PROMPTS_EN } from './prompts-en.ts';
import { ends, fitLine, pages } from './text.ts';

export interface ShownAlarm {
  readonly title: string;
  readonly action: AlarmAction;
  readonly cause: string;
  readonly remedy: string;
}

export interface View {
  readonly batch: BatchState;
  readonly phase: PhaseId;
  readonly kind: 'automatic' | 'confirm' | 'question';
  readonly notClearAdvice: keyof typeof NOT_CLEAR_ADVICE_EN;
  /** The unacknowledged alarm of highest rank. */
  readonly alarm: ShownAlarm | null;
  /** Whether any alarm that is not a mere warning is in force. */
  readonly alarmStops: boolean;
  /** Why the job is held, stopped or aborted. */
  readonly why: string;
  /** Page of the longer explanation; null while it is closed. */
  readonly page: number | null;
  readonly live: LiveValues;
  readonly snapshot: Snapshot;
}

const TEXT_ROWS = 2;

export function composeSignals(view: View): Signals {
  return { display: composeDisplay(view), status: statusOf(view), buzzer: buzzerOf(view) };
}

function composeDisplay(view: View): DisplayLines {
  if (view.alarm !== null) return alarmScreen(view.alarm, view.page ?? 0);
  switch (view.batch) {
    case 'stopped':
    case 'aborted':
    case 'complete':
      return endScreen(view);
    case 'holding':
    case 'held':
    case 'restarting':
      return heldScreen(view);
    case 'stopping':
    case 'aborting':
      return screen(`-- ${ENDING[view.batch]}`, ['Making safe:', 'air off, lamp off'], '');
    default:
      return view.page === null ? phaseScreen(view) : helpScreen(view, view.page);
  }
}

const ENDING = { stopping: 'Stopping', aborting: 'Aborting' } as const;

function phaseScreen(view: View): DisplayLines {
  const { phase, kind } = view;
  const prompt = PROMPTS_EN[phase];
  const live = liveLine(phase, view.live, view.snapshot);
  const [first, second] = prompt.lines;
  const margin = marginLine(phase, view.live, view.snapshot);
  const buttons = {
    automatic: ends('NO=hold', 'MORE'),
    confirm: ends('YES=ok NO=hold', 'MORE'),
    question: ends('YES / NO', 'MORE'),
  }[kind];
  return screen(
    `${STEP_NUMBERS[phase]} ${prompt.title}`,
    [live ?? first, margin ?? second],
    buttons,
  );
}

/** How many pages MORE has in this phase. */
export function helpPages(phase: PhaseId, advice: View['notClearAdvice']) {
  const words = phase === 'offer-cycle' ? NOT_CLEAR_ADVICE_EN[advice] : PROMPTS_EN[phase].more;
  return pages(words, TEXT_ROWS);
}

function helpScreen({ phase, notClearAdvice }: View, page: number): DisplayLines {
  const all = helpPages(phase, notClearAdvice);
  const title = `${STEP_NUMBERS[phase]} ? ${PROMPTS_EN[phase].title}`;
  return screen(
    title,
    all[page % all.length] ?? [],
    ends('YES=back NO=hold', pageMark(page, all.length)),
  );
}

/** Pages of an alarm: first what happened, then what to do. */
export function alarmPages({ cause, remedy }: ShownAlarm) {
  return [...pages(cause, TEXT_ROWS), ...pages(remedy, TEXT_ROWS)];
}

function alarmScreen(alarm: ShownAlarm, page: number): DisplayLines {
  const all = alarmPages(alarm);
  const line = ends('YES=seen MORE', pageMark(page, all.length));
  return screen(`! ${alarm.title}`, all[page % all.length] ?? [], line);
}

const pageMark = (page: number, count: number): string => `${(page % count) + 1}/${count}`;

function heldScreen(view: View): DisplayLines {
  const title = `${STEP_NUMBERS[view.phase]} || ${HELD[view.batch as keyof typeof HELD]}`;
  if (view.batch !== 'held') return screen(title, ['Air off, lamp off', 'Please wait'], '');
  const all = pages(view.why, TEXT_ROWS);
  const page = view.page ?? 0;
  const more = all.length > 1 ? pageMark(page, all.length) : '';
  const buttons = view.alarmStops ? ends('NO=stop MORE', more) : ends('YES=go NO=stop', more);
  return screen(title, all[page % all.length] ?? [], buttons);
}

const HELD = { holding: 'Holding', held: 'Held', restarting: 'Restarting' } as const;

function endScreen(view: View): DisplayLines {
  const title = { stopped: 'Stopped', aborted: 'Aborted', complete: 'Record closed' }[
    view.batch as 'stopped' | 'aborted' | 'complete'
  ];
  const all = pages(view.why, TEXT_ROWS);
  return screen(`-- ${title}`, all[(view.page ?? 0) % all.length] ?? [], ends('YES=end', 'MORE'));
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
