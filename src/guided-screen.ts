/**
 * The display's four lines in a guided procedure, in the grammar of a repair's screens: a mark and a
 * title, two lines, and what the buttons do. Alarms, states and buttons say what they say in a
 * repair; the words of the steps are the guided catalogue's.
 */

import { forcesStop } from './batch-moves.ts';
import { shownAlarm } from './batch-step.ts';
import type { DisplayLines, Reading } from './frame.ts';
import { entryValueSI } from './guided/number-entry.ts';
import { stepOf } from './guided/progress.ts';
import { QUANTITIES, readingOf, writtenValue } from './guided/quantities.ts';
import { meanOf } from './guided/steadiness.ts';
import { STEP_MARKS } from './guided/step.ts';
import { guidedResultOf } from './guided-result.ts';
import { resultLines } from './guided-result-lines.ts';
import type { GuidedConfig, GuidedState, GuidedWhy } from './guided-state.ts';
import type { ButtonKey } from './panel/catalogue.ts';
import { alarmPages, alarmWords, type Page, reasonPages } from './panel/page-words.ts';
import { ends, fitLine, pages } from './panel/text.ts';
import { foremost } from './safety/alarms.ts';

const TEXT_ROWS = 2;

export function guidedDisplay(
  config: GuidedConfig,
  state: GuidedState,
  reading: Reading,
): DisplayLines {
  const { states } = config.catalogue;
  const { batch } = state;
  if (foremost(state.alarms) !== null) return alarmScreen(config, state);
  switch (batch) {
    case 'stopped':
    case 'aborted':
    case 'complete':
      return paged(config, state, `-- ${states[batch]}`, whyPages(config, state.why), 'end');
    case 'holding':
    case 'restarting':
      return screen(heldTitle(state, states[batch]), [states.outputsOff, states.wait], '');
    case 'held': {
      const held = forcesStop(state.alarms) ? 'heldByAlarm' : 'held';
      const buttons = 'heldFor' in state.why ? 'endAsked' : held;
      const asked = `${markOf(state)} ||? ${states.endAsked}`;
      const title = 'heldFor' in state.why ? asked : heldTitle(state, states.held);
      return paged(config, state, title, whyPages(config, state.why), buttons);
    }
    case 'stopping':
    case 'aborting':
      return screen(`-- ${states[batch]}`, [states.makingSafe, states.outputsOff], '');
    default:
      return state.page === null ? stepScreen(config, state, reading) : helpScreen(config, state);
  }
}

const markOf = ({ progress }: GuidedState): string => STEP_MARKS[progress.step];
const heldTitle = (state: GuidedState, word: string): string => `${markOf(state)} || ${word}`;

function alarmScreen(config: GuidedConfig, state: GuidedState): DisplayLines {
  const standing = foremost(state.alarms);
  if (standing === null) return screen('', [], '');
  const alarm = shownAlarm(standing);
  const { title } = alarmWords(alarm, config.catalogue);
  return paged(config, state, `! ${title}`, alarmPages(alarm, config.catalogue), 'alarm');
}

function stepScreen(config: GuidedConfig, state: GuidedState, reading: Reading): DisplayLines {
  const { words } = config;
  const { progress } = state;
  const { title, lines } = words.steps[progress.step];
  const { kind } = stepOf(progress);
  const [first, second] =
    kind === 'question'
      ? resultLines(guidedResultOf(config, progress), words)
      : [liveLine(config, state, reading) ?? lines[0], lines[1]];
  return screen(`${markOf(state)} ${title}`, [first ?? '', second ?? ''], buttonLine(config, kind));
}

function buttonLine(
  { words, catalogue }: GuidedConfig,
  kind: ReturnType<typeof stepOf>['kind'],
): string {
  if (kind === 'question') return words.buttons.keep;
  if (kind === 'entry') return words.buttons.entry;
  return ends(...catalogue.buttons[kind]);
}

/** The mean where there is one: it stands stiller than single readings; while a number is entered, that. */
function liveLine(
  { words, settings }: GuidedConfig,
  { progress }: GuidedState,
  reading: Reading,
): string | null {
  const { quantity, kind } = stepOf(progress);
  if (quantity === null) return null;
  const { unit } = QUANTITIES[quantity];
  if (kind === 'entry' && progress.entry !== null) {
    return `> ${writtenValue(quantity, entryValueSI(progress.entry))} ${unit}`;
  }
  const value = meanOf(progress.window, settings.averageS)?.mean ?? readingOf(quantity, reading);
  const shown = value === null ? words.live.noReading : `${writtenValue(quantity, value)} ${unit}`;
  return ends(shown, `${Math.floor(progress.elapsedS)} s`);
}

/** A step's explanation; before that of a result all its lines, and what to look for. */
function helpScreen(config: GuidedConfig, state: GuidedState): DisplayLines {
  const { words } = config;
  const { progress } = state;
  const { title, more } = words.steps[progress.step];
  const explained = more === null ? [] : pages(more, TEXT_ROWS);
  const all = stepOf(progress).kind === 'question' ? resultPages(config, state) : [];
  return paged(config, state, `${markOf(state)} ? ${title}`, [...all, ...explained], 'help');
}

function resultPages(config: GuidedConfig, { progress }: GuidedState): readonly Page[] {
  const result = guidedResultOf(config, progress);
  const lines = resultLines(result, config.words);
  const rows: Page[] = [];
  for (let at = 0; at < lines.length; at += TEXT_ROWS) rows.push(lines.slice(at, at + TEXT_ROWS));
  const refusals = (result?.refusals ?? []).flatMap((words) => pages(words, TEXT_ROWS));
  return [...rows, ...refusals];
}

function whyPages({ catalogue, words }: GuidedConfig, why: GuidedWhy): readonly Page[] {
  if ('standing' in why) {
    return reasonPages({ alarm: shownAlarm(why.standing), refused: why.refused }, catalogue);
  }
  if ('told' in why) return reasonPages({ say: 'interrupted' }, catalogue);
  if ('heldFor' in why) return reasonPages({ say: 'end-asked' }, catalogue);
  const said = 'late' in why ? words.steps[why.late].late : words.ends[why.say];
  return pages(said ?? '', TEXT_ROWS);
}

/** One page of many; where there are more than one, its number stands at the end of the last line. */
function paged(
  { catalogue }: GuidedConfig,
  { page }: GuidedState,
  title: string,
  all: readonly Page[],
  key: ButtonKey,
): DisplayLines {
  const at = (page ?? 0) % Math.max(1, all.length);
  const [left, right] = catalogue.buttons[key];
  const mark = all.length > 1 ? `${at + 1}/${all.length}` : right;
  return screen(title, all[at] ?? [], ends(left, mark));
}

function screen(title: string, text: readonly string[], buttons: string): DisplayLines {
  return [fitLine(title), fitLine(text[0] ?? ''), fitLine(text[1] ?? ''), fitLine(buttons)];
}
