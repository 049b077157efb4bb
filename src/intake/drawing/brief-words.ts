/**
 * The few words of the brief form: the pane's size or that the drawing is not to scale, what is not
 * known, and the meaning of the letters where it is short. Everything else is left to the full
 * drawing.
 */
import type { IntakeSheet } from '../sheet/intake-sheet.ts';
import { mmWords } from './dimension-lines.ts';
import type { Circle } from './distances.ts';
import type { Shape } from './shapes.ts';

export const LETTERS_ELSEWHERE = 'Letters: see the full report.';

export function briefWords(sheet: IntakeSheet, circle: Circle | null): readonly string[] {
  const { widthMm, heightMm } = sheet.pane;
  const missing = missingWords(sheet);
  return [
    widthMm === 'unknown' || heightMm === 'unknown'
      ? 'NOT TO SCALE: the position of a broken edge is arbitrary.'
      : `To scale; pane ${mmWords(widthMm)} × ${mmWords(heightMm)} mm.`,
    ...(circle === null ? [] : ['Distances in mm, from the rim of the damage.']),
    ...(runsToAnEdge(sheet) ? ['It runs to an edge, seal or trim.'] : []),
    ...(missing.length === 0 ? [] : [`Not known: ${missing.join(', ')}.`]),
  ];
}

const runsToAnEdge = ({ damage: { edgesReached } }: IntakeSheet): boolean =>
  edgesReached !== 'unknown' && edgesReached > 0;

function missingWords({ pane, place }: IntakeSheet): readonly string[] {
  const placeKnown = place.fromLeftMm !== 'unknown' && place.fromTopMm !== 'unknown';
  return [
    ...(pane.widthMm === 'unknown' ? ['width'] : []),
    ...(pane.heightMm === 'unknown' ? ['height'] : []),
    ...(placeKnown ? [] : ['place of the damage']),
    ...(pane.sweep === 'unknown' ? ['swept area'] : []),
    ...(pane.driverSide === 'unknown' ? ['driver’s side'] : []),
    ...(pane.wheelCentreMm === 'unknown' ? ['wheel centre line'] : []),
  ];
}

/** Letters grouped by whose area they mark: the swept area, and the zones of each rule set. */
export function letterWords(shapes: readonly Shape[]): string | null {
  const byOwner = new Map<string | null, string[]>();
  for (const { letter, areas } of shapes) {
    for (const of of new Set(areas.map((area) => area.of))) {
      byOwner.set(of, [...(byOwner.get(of) ?? []), letter]);
    }
  }
  const owners = [...byOwner].map(([of, letters]) =>
    of === null
      ? `${listed(letters)}: swept by the wipers`
      : `${letters.length === 1 ? 'zone' : 'zones'} ${listed(letters)}: ${of}`,
  );
  const words = owners.join('; ');
  return words === '' ? null : `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
}

/** Abbreviates three or more consecutive letters to the first and the last. */
export function listed(letters: readonly string[]): string {
  const codes = letters.map((letter) => (letter.length === 1 ? letter.charCodeAt(0) : Number.NaN));
  const row = codes.every((code, at) => code === (codes[0] ?? 0) + at);
  return row && letters.length > 2 ? `${letters[0]}–${letters.at(-1)}` : letters.join(', ');
}
