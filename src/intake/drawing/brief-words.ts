/**
 * The few words of the brief form: the pane's size or that the drawing is not to scale, what is not
 * known, and the meaning of the letters where it is short. Everything else is left to the full
 * drawing.
 */
import { filled } from '../../core/phrases.ts';
import type { IntakeSheet } from '../sheet/intake-sheet.ts';
import type { Circle } from './distances.ts';
import { type DrawingWords, mmText } from './drawing-words.ts';
import type { Shape } from './shapes.ts';

export function briefTexts(
  sheet: IntakeSheet,
  circle: Circle | null,
  words: DrawingWords,
): readonly string[] {
  const { widthMm, heightMm } = sheet.pane;
  const { brief } = words;
  const missing = missingParts(sheet, words.missingParts);
  return [
    widthMm === 'unknown' || heightMm === 'unknown'
      ? brief.notToScale
      : filled(brief.toScale, { width: mmText(widthMm, words), height: mmText(heightMm, words) }),
    ...(circle === null ? [] : [words.distances]),
    ...(runsToAnEdge(sheet) ? [brief.runsToAnEdge] : []),
    ...(missing.length === 0 ? [] : [filled(brief.missing, { what: missing.join(', ') })]),
  ];
}

const runsToAnEdge = ({ damage: { edgesReached } }: IntakeSheet): boolean =>
  edgesReached !== 'unknown' && edgesReached > 0;

function missingParts(
  { pane, place }: IntakeSheet,
  parts: DrawingWords['missingParts'],
): readonly string[] {
  const placeKnown = place.fromLeftMm !== 'unknown' && place.fromTopMm !== 'unknown';
  return [
    ...(pane.widthMm === 'unknown' ? [parts.width] : []),
    ...(pane.heightMm === 'unknown' ? [parts.height] : []),
    ...(placeKnown ? [] : [parts.place]),
    ...(pane.sweep === 'unknown' ? [parts.sweep] : []),
    ...(pane.driverSide === 'unknown' ? [parts.driverSide] : []),
    ...(pane.wheelCentreMm === 'unknown' ? [parts.wheel] : []),
  ];
}

/** Letters grouped by whose area they mark: the swept area, and the zones of each rule set. */
export function lettersText(shapes: readonly Shape[], { brief }: DrawingWords): string | null {
  const byOwner = new Map<string | null, string[]>();
  for (const { letter, areas } of shapes) {
    for (const of of new Set(areas.map((area) => area.of))) {
      byOwner.set(of, [...(byOwner.get(of) ?? []), letter]);
    }
  }
  const owners = [...byOwner].map(([of, marked]) => {
    const letters = listed(marked);
    return of === null
      ? filled(brief.swept, { letters })
      : filled(marked.length === 1 ? brief.zone : brief.zones, { letters, of });
  });
  const text = owners.join('; ');
  return text === '' ? null : `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}

/** Abbreviates three or more consecutive letters to the first and the last. */
export function listed(letters: readonly string[]): string {
  const codes = letters.map((letter) => (letter.length === 1 ? letter.charCodeAt(0) : Number.NaN));
  const row = codes.every((code, at) => code === (codes[0] ?? 0) + at);
  return row && letters.length > 2 ? `${letters[0]}–${letters.at(-1)}` : letters.join(', ');
}
