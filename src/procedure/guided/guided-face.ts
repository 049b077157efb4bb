/**
 * What a person sees of a guided procedure: the words of its steps, the number being dialled, the
 * result and its consequences, and why it is held or over. Alarms, states and buttons use the same
 * words as in a repair; the panel frames the screens.
 */

import { asksNumber } from '../../control/intents.ts';
import { type Reading, valueOrNull } from '../../core/frame.ts';
import { STEP_MARKS } from '../../core/guided-events.ts';
import { buttonLine, type Face, type Seen } from '../../panel/face.ts';
import { alarmReasonPages, type Page, reasonPages, TEXT_ROWS } from '../../panel/page-words.ts';
import { ends, pages } from '../../panel/text.ts';
import { foremost } from '../../safety/alarms.ts';
import { guidedResultOf } from './guided-result.ts';
import { refusalTexts, resultLines } from './guided-result-lines.ts';
import type { GuidedConfig, GuidedSnapshot, GuidedState } from './guided-state.ts';
import { entryValueSI } from './number-entry.ts';
import { stepOf } from './progress.ts';
import { QUANTITIES, writtenValue } from './quantities.ts';
import { meanOf } from './steadiness.ts';

export function guidedSnapshotOf(state: GuidedState, reading: Reading): GuidedSnapshot {
  const { batch, procedure: progress, alarms, page } = state;
  const alarm = foremost(alarms)?.row.id ?? null;
  const { kind } = stepOf(progress);
  return {
    timeS: reading.timeS,
    batch,
    step: progress.step,
    pressurePa: valueOrNull(reading.pressurePa),
    setPointPa: state.setPointPa,
    atmospherePa: progress.atmospherePa,
    irradianceWPerM2: valueOrNull(reading.irradianceWPerM2),
    glassK: valueOrNull(reading.glassK),
    heatSinkK: valueOrNull(reading.heatSinkK),
    supplyV: valueOrNull(reading.supplyV),
    asksNumber: asksNumber({ batch, kind, alarm, helpOpen: page !== null }),
  };
}

export function guidedFaceOf(
  seen: Seen,
  state: GuidedState,
  snapshot: GuidedSnapshot,
  config: GuidedConfig,
): Face {
  const { words } = config;
  const { kind, catalogue } = seen;
  const { step } = state.procedure;
  const { title, more } = words.steps[step];
  return {
    seen,
    mark: STEP_MARKS[step],
    title,
    lines: () => linesOf(state, snapshot, config),
    buttons: () => {
      if (kind === 'question') return words.buttons.keep;
      return kind === 'entry' ? words.buttons.entry : buttonLine(catalogue, kind);
    },
    // All lines of a result, followed by the explanation and what to check.
    help: () =>
      [...(kind === 'question' ? resultPages(state, config) : []), ...pagesOf(more ?? '')].map(
        (lines) => ({ lines, caution: false }),
      ),
    brief: () => null,
    why: () => whyPages(state, config),
  };
}

const pagesOf = (words: string): readonly Page[] => (words === '' ? [] : pages(words, TEXT_ROWS));

function linesOf(
  { procedure: progress }: GuidedState,
  snapshot: GuidedSnapshot,
  config: GuidedConfig,
): readonly [string, string] {
  const { words } = config;
  if (stepOf(progress).kind === 'question') {
    const [first = '', second = ''] = resultLines(guidedResultOf(config, progress), words);
    return [first, second];
  }
  const { lines } = words.steps[progress.step];
  return [liveLine(progress, snapshot, config) ?? lines[0], lines[1]];
}

/**
 * The mean where there is one, because it is steadier than single readings; while a number is
 * entered, that number.
 */
function liveLine(
  progress: GuidedState['procedure'],
  snapshot: GuidedSnapshot,
  { words, settings }: GuidedConfig,
): string | null {
  const { quantity, kind } = stepOf(progress);
  if (quantity === null) return null;
  const { unit, of } = QUANTITIES[quantity];
  if (kind === 'entry' && progress.entry !== null) {
    return `> ${writtenValue(quantity, entryValueSI(progress.entry))} ${unit}`;
  }
  const value = meanOf(progress.window, settings.averageS)?.mean ?? snapshot[of];
  const shown = value === null ? words.live.noReading : `${writtenValue(quantity, value)} ${unit}`;
  return ends(shown, `${Math.floor(progress.elapsedS)} s`);
}

function resultPages({ procedure }: GuidedState, config: GuidedConfig): readonly Page[] {
  const result = guidedResultOf(config, procedure);
  const lines = resultLines(result, config.words);
  const rows: Page[] = [];
  for (let at = 0; at < lines.length; at += TEXT_ROWS) rows.push(lines.slice(at, at + TEXT_ROWS));
  const refusals = result === null ? [] : refusalTexts(result, config.words);
  return [...rows, ...refusals.flatMap(pagesOf)];
}

function whyPages({ why }: GuidedState, { catalogue, words }: GuidedConfig): readonly Page[] {
  if (why === null) return [];
  const { shown } = why;
  if ('alarm' in shown) return alarmReasonPages(shown, catalogue);
  if ('late' in shown) return pagesOf(words.steps[shown.late].late ?? '');
  return shown.say === 'interrupted'
    ? reasonPages({ say: 'interrupted' }, catalogue)
    : pagesOf(words.ends[shown.say]);
}
