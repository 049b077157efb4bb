/**
 * Decides which areas are drawn on the pane: the swept area and the zones of the chosen rule sets.
 * Areas that coincide are drawn once under one letter. Areas that this pane does not have, or that
 * cannot be located from the answers, are listed separately, so that the drawing can say so.
 */

import type { RuleSet } from '../rules/rule-set.ts';
import { type Pane, type Place, type Rect, rectOf } from '../sheet/area.ts';
import type { DrawingWords } from './drawing-words.ts';

export interface DrawnArea {
  readonly words: string;
  /** Short name of the rule set; null for what belongs to the pane itself. */
  readonly of: string | null;
}

export interface Shape {
  readonly letter: string;
  readonly rect: Rect;
  readonly areas: readonly DrawnArea[];
}

export interface Shapes {
  readonly drawn: readonly Shape[];
  readonly notOnThisPane: readonly DrawnArea[];
  readonly notKnown: readonly DrawnArea[];
}

/** The jurisdiction, where it distinguishes the chosen sets. */
export function shortNameOf({ jurisdiction, id }: RuleSet, ruleSets: readonly RuleSet[]): string {
  const alike = ruleSets.filter((set) => set.jurisdiction === jurisdiction);
  return alike.length === 1 ? jurisdiction : id;
}

type PlacedArea = DrawnArea & { readonly place: Place };

export function shapesOf(
  pane: Pane,
  ruleSets: readonly RuleSet[],
  { swept }: DrawingWords,
): Shapes {
  const areas: readonly PlacedArea[] = [
    { words: swept, of: null, place: rectOf({ kind: 'sweep' }, pane) },
    ...ruleSets.flatMap((set) =>
      set.zones.map(({ words, area }) => ({
        words,
        of: shortNameOf(set, ruleSets),
        place: rectOf(area, pane),
      })),
    ),
  ];
  const bare = ({ words, of }: PlacedArea): DrawnArea => ({ words, of });
  return {
    drawn: merged(areas),
    notOnThisPane: areas.filter(({ place }) => place === null).map(bare),
    notKnown: areas.filter(({ place }) => place === 'unknown').map(bare),
  };
}

function merged(areas: readonly PlacedArea[]): readonly Shape[] {
  const byRect = new Map<string, { rect: Rect; areas: DrawnArea[] }>();
  for (const { place, words, of } of areas) {
    if (place === null || place === 'unknown') continue;
    const key = JSON.stringify(sides(place).map((mm) => Math.round(mm * 10)));
    const shape = byRect.get(key) ?? { rect: place, areas: [] };
    shape.areas.push({ words, of });
    byRect.set(key, shape);
  }
  return [...byRect.values()].map((shape, index) => ({ letter: letterOf(index), ...shape }));
}

const sides = ({ leftMm, topMm, rightMm, bottomMm }: Rect): readonly number[] => [
  leftMm,
  topMm,
  rightMm,
  bottomMm,
];

/** A to Z, then A2 to Z2 and so on. */
function letterOf(index: number): string {
  const letter = String.fromCharCode(65 + (index % 26));
  const round = Math.floor(index / 26) + 1;
  return round === 1 ? letter : `${letter}${round}`;
}
