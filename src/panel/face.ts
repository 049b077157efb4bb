/**
 * Composes display, status lamp and buzzer for every procedure. Line 1 always shows where the
 * person is: `5.2 Title` a step, `5.2 || Held` held there, `5.2 ||? End job` asked whether to end
 * it, `5.2 |? Why HOLD?` asked why HOLD was pressed, `5.2 ? Title` the longer explanation,
 * `5.2 !? Caution` its hazards, `! Title` an alarm to acknowledge, `-- Title` the end. Line 4 always
 * shows what the buttons do. The procedure supplies a step's words; the controller decides what a
 * button leads to.
 */
import type { BatchState, HoldQuestion } from '../core/events.ts';
import type { DisplayLines, Signals } from '../core/frame.ts';
import type { ButtonKey, Catalogue, StateKey } from './catalogue.ts';
import {
  alarmPages,
  alarmWords,
  type HelpPage,
  type Page,
  reasonPages,
  type ShownAlarm,
} from './page-words.ts';
import { ends, fitLine, inLetters } from './text.ts';

/** Common to all procedures' screens. */
export interface Seen {
  readonly catalogue: Catalogue;
  readonly batch: BatchState;
  readonly kind: 'automatic' | 'confirm' | 'question' | 'entry';
  /** The unacknowledged alarm of highest rank. */
  readonly alarm: ShownAlarm | null;
  /** Whether any alarm above a mere warning is in force. */
  readonly alarmStops: boolean;
  /** A held job asks whether to end it, or why HOLD was pressed; null where it asks nothing. */
  readonly asks: 'end' | HoldQuestion | null;
  /** A held job can only be ended. */
  readonly mustEnd: boolean;
  /** A press has just been refused. */
  readonly wrongKey: boolean;
  /** Page of the longer explanation; null while it is closed. */
  readonly page: number | null;
  readonly phaseElapsedS: number;
}

export interface Face {
  readonly seen: Seen;
  /** The number or mark of the step, and its title. */
  readonly mark: string;
  readonly title: string;
  readonly lines: () => readonly [string, string];
  /** What the buttons do in this step. */
  readonly buttons: () => string;
  readonly help: () => readonly HelpPage[];
  /** Pressure or dose and the time left, short enough for a page of help; null where nothing runs. */
  readonly brief: () => string | null;
  /** Why it is held, stopped or aborted. */
  readonly why: () => readonly Page[];
}

export function signalsOf(face: Face): Signals {
  const { letters } = face.seen.catalogue;
  const [first, second, third, last] = displayOf(face);
  const own = (line: string): string => inLetters(line, letters);
  const display = [own(first), own(second), own(third), own(last)] as const;
  return { display, status: statusOf(face.seen), buzzer: buzzerOf(face.seen) };
}

function displayOf(face: Face): DisplayLines {
  const { catalogue, alarm, batch, page } = face.seen;
  const { states } = catalogue;
  if (alarm !== null) return alarmScreen(alarm, face.seen);
  switch (batch) {
    case 'stopped':
    case 'aborted':
    case 'complete':
      return endScreen(face, batch);
    case 'holding':
    case 'restarting':
      return screen(heldTitle(face, batch), [states.outputsOff, states.wait], '');
    case 'held':
      return heldScreen(face);
    case 'stopping':
    case 'aborting':
      return screen(`-- ${states[batch]}`, [states.makingSafe, states.outputsOff], '');
    default:
      return page === null
        ? screen(`${face.mark} ${face.title}`, face.lines(), face.buttons())
        : helpScreen(face, page);
  }
}

function helpScreen(face: Face, page: number): DisplayLines {
  const { mark } = face;
  const { catalogue } = face.seen;
  const all = face.help();
  const shown = all[page % all.length];
  const brief = face.brief();
  const title =
    shown?.caution === true
      ? `!? ${brief ?? catalogue.states.caution}`
      : `? ${brief ?? face.title}`;
  const buttons = buttonLine(catalogue, 'help', pageMark(page, all.length));
  return screen(`${mark} ${title}`, shown?.lines ?? [], buttons);
}

function alarmScreen(alarm: ShownAlarm, { catalogue, page: open }: Seen): DisplayLines {
  const page = open ?? 0;
  const all = alarmPages(alarm, catalogue);
  const { title } = alarmWords(alarm, catalogue);
  const buttons = buttonLine(catalogue, 'alarm', pageMark(page, all.length));
  return screen(`! ${title}`, all[page % all.length] ?? [], buttons);
}

/** The last line; where there are pages, the page mark takes its right end. */
export function buttonLine({ buttons }: Catalogue, key: ButtonKey, mark?: string): string {
  const [left, right] = buttons[key];
  return ends(left, mark ?? right);
}

const pageMark = (page: number, count: number): string => `${(page % count) + 1}/${count}`;

const heldTitle = ({ mark, seen: { catalogue } }: Face, state: StateKey): string =>
  `${mark} || ${catalogue.states[state]}`;

function heldScreen(face: Face): DisplayLines {
  const { asks, alarmStops, mustEnd, catalogue } = face.seen;
  const page = face.seen.page ?? 0;
  const all = asks === null ? face.why() : reasonPages({ say: `ask-${asks}` }, catalogue);
  const mark = all.length > 1 ? pageMark(page, all.length) : '';
  const held = alarmStops || mustEnd ? 'heldToEnd' : 'held';
  const buttons = buttonLine(catalogue, asks === null ? held : ASKED[asks].buttons, mark);
  const { states } = catalogue;
  const title =
    asks === null
      ? heldTitle(face, 'held')
      : `${face.mark} ${ASKED[asks].mark} ${states[ASKED[asks].title]}`;
  return screen(title, all[page % all.length] ?? [], buttons);
}

const WHY_ASKED = { mark: '|?', title: 'whyAsked', buttons: 'whyAsked' } as const;
interface Asked {
  readonly mark: string;
  readonly title: StateKey;
  readonly buttons: ButtonKey;
}
const ASKED: Readonly<Record<'end' | HoldQuestion, Asked>> = {
  end: { mark: '||?', title: 'endAsked', buttons: 'endAsked' },
  'leg-grew': WHY_ASKED,
  'resin-inside': WHY_ASKED,
};

function endScreen(face: Face, batch: 'stopped' | 'aborted' | 'complete'): DisplayLines {
  const { states, buttons } = face.seen.catalogue;
  const page = face.seen.page ?? 0;
  const all = face.why();
  const [left, more] = buttons.end;
  const right = all.length > 1 ? `${more} ${pageMark(page, all.length)}` : '';
  return screen(`-- ${states[batch]}`, all[page % all.length] ?? [], ends(left, right));
}

function screen(title: string, text: readonly string[], buttons: string): DisplayLines {
  return [fitLine(title), fitLine(text[0] ?? ''), fitLine(text[1] ?? ''), fitLine(buttons)];
}

/** IEC 60073: red danger, yellow abnormal, blue action by a person required, green normal. */
function statusOf({ alarm, alarmStops, batch, kind }: Seen): Signals['status'] {
  if (alarm?.action === 'abort' || batch === 'aborting' || batch === 'aborted') {
    return { colour: 'red', flashing: alarm !== null };
  }
  if (alarm !== null || alarmStops) return { colour: 'yellow', flashing: alarm !== null };
  if (batch === 'running') {
    return { colour: kind === 'automatic' ? 'green' : 'blue', flashing: false };
  }
  return { colour: batch === 'complete' ? 'green' : 'blue', flashing: false };
}

function buzzerOf({ alarm, batch, kind, wrongKey, phaseElapsedS }: Seen): Signals['buzzer'] {
  if (alarm !== null) return alarm.action === 'warn' ? 'once' : 'repeating';
  const asks = batch === 'running' && kind !== 'automatic' && phaseElapsedS < 0.5;
  return asks || wrongKey ? 'once' : 'off';
}
