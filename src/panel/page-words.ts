/**
 * The pages behind MORE: for a step its longer explanation and then its caution; for an alarm what
 * happened, what the unit did, and what to do now. Each part begins on a page of its own. `face.ts`
 * frames the pages.
 */

import type { AlarmAction } from '../core/events.ts';
import { BUTTONS } from '../core/frame.ts';
import type { PhaseId } from '../core/phases.ts';
import { filled, type Phrase, worded } from '../core/phrases.ts';
import type { AdviceKey, AlarmWords, Catalogue, ReasonKey } from './catalogue.ts';
import { type LiveValues, lightWords } from './live-line.ts';
import { sheetWords } from './sheet-line.ts';
import { pages } from './text.ts';

/** Text rows of the display's four lines; the others are the title and the buttons. */
export const TEXT_ROWS = 2;

export type Page = readonly string[];

export interface HelpPage {
  readonly lines: Page;
  readonly caution: boolean;
}

export interface ShownAlarm {
  readonly id: string;
  readonly action: AlarmAction;
  readonly expected: Phrase;
  /** Null where it would only repeat the limit. */
  readonly seen: Phrase | null;
}

/** An alarm as the reason why something is held or over, or why it could not resume. */
export interface AlarmReason {
  readonly alarm: ShownAlarm;
  readonly refused: boolean;
}

/** Why a job is held or over: a reason of its own, or an alarm. */
export type ShownReason = { readonly say: ReasonKey } | AlarmReason;

export interface HelpSubject {
  readonly catalogue: Catalogue;
  readonly phase: PhaseId;
  readonly notClearAdvice: AdviceKey;
  readonly live: Pick<LiveValues, 'light' | 'sheet' | 'remedy' | 'glass'>;
}

export function helpPages({ catalogue, phase, notClearAdvice, live }: HelpSubject) {
  const { more, caution } = catalogue.prompts[phase];
  const filling = {
    advice: catalogue.advice[notClearAdvice],
    light: lightWords(live, catalogue),
    remedy: live.remedy === null ? '' : catalogue.remedies[live.remedy].more,
    remedyCaution: live.remedy === null ? '' : catalogue.remedies[live.remedy].caution,
    sheet: sheetWords(live, catalogue),
    rate: (60 * live.glass.allowedKPerS).toFixed(0),
  };
  const paged = (words: string, isCaution: boolean): readonly HelpPage[] =>
    pages(filled(words, filling), TEXT_ROWS).map((lines) => ({ lines, caution: isCaution }));
  return [...paged(more, false), ...(caution === undefined ? [] : paged(caution, true))];
}

export function alarmPages(alarm: ShownAlarm, catalogue: Catalogue): readonly Page[] {
  const { did, now } = alarmWords(alarm, catalogue);
  return [happened(alarm, catalogue), did, now].flatMap((words) => pages(words, TEXT_ROWS));
}

export const reasonPages = (reason: ShownReason, catalogue: Catalogue): readonly Page[] =>
  'say' in reason
    ? pages(catalogue.reasons[reason.say], TEXT_ROWS)
    : alarmReasonPages(reason, catalogue);

export function alarmReasonPages(reason: AlarmReason, catalogue: Catalogue): readonly Page[] {
  const { reasons } = catalogue;
  const { title, now } = alarmWords(reason.alarm, catalogue);
  const before = reason.refused ? pages(reasons['cannot-go-on'], TEXT_ROWS) : [];
  // What was expected and seen stood on the alarm's own pages.
  return [...before, ...pages(`${title}.`, TEXT_ROWS), ...pages(now, TEXT_ROWS)];
}

function happened(alarm: ShownAlarm, catalogue: Catalogue): string {
  const { phrases, names, alarmFigures } = catalogue;
  const expected = worded(alarm.expected, phrases);
  const figures =
    alarm.seen === null
      ? filled(alarmFigures.limit, { expected })
      : filled(alarmFigures.told, {
          expected,
          seen: worded(withOwnLabel(alarm.seen, names), phrases),
        });
  return `${alarmWords(alarm, catalogue).happened} ${figures}`;
}

/** The record calls a button by its English label, the display as the button is labelled. */
function withOwnLabel(phrase: Phrase, names: Catalogue['names']): Phrase {
  const button = BUTTONS.find((one) => one.toUpperCase() === phrase.with?.['button']);
  return button === undefined
    ? phrase
    : { ...phrase, with: { ...phrase.with, button: names[button] } };
}

/** A checked catalogue has words for every alarm; otherwise its name is better than nothing. */
export const alarmWords = ({ id }: ShownAlarm, { alarms }: Catalogue): AlarmWords =>
  alarms[id] ?? { title: id, happened: id, did: id, now: id };
