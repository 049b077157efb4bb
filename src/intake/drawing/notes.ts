/**
 * The notes below the drawing: the damage, each lettered area with the position of the damage
 * relative to it, what cannot be drawn because it is not known, and what else is on the pane.
 */

import { countedForm } from '../../core/language-file.ts';
import { filled } from '../../core/phrases.ts';
import type { RuleSet } from '../rules/rule-set.ts';
import type { IntakeSheet } from '../sheet/intake-sheet.ts';
import { type Circle, lies } from './distances.ts';
import { type DrawingWords, mmText } from './drawing-words.ts';
import { type DrawnArea, type Shape, type Shapes, shortNameOf } from './shapes.ts';

export interface Note {
  /** Letter of a drawn area, shown with its line and hatch; null for a plain note. */
  readonly letter: string | null;
  readonly text: string;
}

type Size = number | 'unknown';

function damageText({ damage }: IntakeSheet, words: DrawingWords): string {
  const { type, diameterMm, bodyMm, pitMm, legs, longestLegMm, depthMm } = damage;
  const legged = type === 'star-break' || type === 'combination-break';
  const size = (name: keyof DrawingWords['sizes'], mm: Size): string =>
    sizeText(words.sizes[name], mm, words);
  const counted =
    legs === 'unknown'
      ? words.legsNotCounted
      : filled(countedForm(words.legs, legs, words.language), { count: String(legs) });
  const what = [
    words.damageTypes[type],
    type === 'crack' ? size('length', longestLegMm) : size('width', diameterMm),
    ...(type === 'combination-break' ? [size('body', bodyMm)] : []),
    size('pit', pitMm),
    ...(legged ? [counted, size('longestLeg', longestLegMm)] : []),
    size('depth', depthMm),
  ].join(', ');
  return filled(words.damage, { what });
}

const sizeText = (what: string, mm: Size, words: DrawingWords): string =>
  mm === 'unknown'
    ? filled(words.notKnown, { what })
    : filled(words.size, { what, mm: mmText(mm, words) });

export function notesOf(
  sheet: IntakeSheet,
  ruleSets: readonly RuleSet[],
  shapes: Shapes,
  circle: Circle | null,
  words: DrawingWords,
): readonly Note[] {
  const plain = (text: string): Note => ({ letter: null, text });
  const named = ruleSets.map((set) => {
    const { name, edition } = set;
    return plain(filled(words.ruleSet, { short: shortNameOf(set, ruleSets), name, edition }));
  });
  return [
    plain(damageText(sheet, words)),
    plain(placeText(sheet, words)),
    ...shapes.drawn.map((shape) => ({
      letter: shape.letter,
      text: shapeText(shape, circle, words),
    })),
    ...listed(words.notDrawn, shapes.notKnown, words).map(plain),
    ...listed(words.notOnThisPane, shapes.notOnThisPane, words).map(plain),
    ...besideTexts(sheet, words).map(plain),
    ...named,
    plain(
      [
        centresText(sheet.pane, words),
        circle === null ? words.noDistances : words.distances,
        ...courseTexts(sheet, words),
      ].join(' '),
    ),
  ];
}

const areaText = ({ words: area, of }: DrawnArea, words: DrawingWords): string =>
  of === null ? area : filled(words.area, { area, of });

const areasText = (areas: readonly DrawnArea[], words: DrawingWords): string =>
  areas.map((area) => areaText(area, words)).join('; ');

function shapeText({ areas: drawn, rect }: Shape, circle: Circle | null, words: DrawingWords) {
  const areas = areasText(drawn, words);
  if (circle === null) return filled(words.lies.unknown, { areas });
  const how = lies(circle, rect);
  return typeof how === 'number'
    ? filled(words.lies.away, { areas, mm: mmText(how, words) })
    : filled(words.lies[how], { areas });
}

const listed = (
  template: string,
  areas: readonly DrawnArea[],
  words: DrawingWords,
): readonly string[] =>
  areas.length === 0 ? [] : [filled(template, { areas: areasText(areas, words) })];

function placeText({ place, pane }: IntakeSheet, words: DrawingWords): string {
  const { missingParts: parts } = words;
  const missing = [
    ...(pane.widthMm === 'unknown' ? [parts.paneWidth] : []),
    ...(pane.heightMm === 'unknown' ? [parts.paneHeight] : []),
    ...(place.fromLeftMm === 'unknown' ? [parts.fromLeft] : []),
    ...(place.fromTopMm === 'unknown' ? [parts.fromTop] : []),
    ...(pane.sweep === 'unknown' ? [parts.sweep] : []),
    ...(pane.driverSide === 'unknown' ? [parts.driverSide] : []),
  ];
  const position =
    place.fromLeftMm === 'unknown' || place.fromTopMm === 'unknown'
      ? words.positionNotKnown
      : filled(words.position, {
          left: mmText(place.fromLeftMm, words),
          top: mmText(place.fromTopMm, words),
        });
  return missing.length === 0
    ? position
    : filled(words.missing, { position, what: missing.join(', ') });
}

function besideTexts({ place, damage }: IntakeSheet, words: DrawingWords): readonly string[] {
  const { beside } = words;
  const near = (mm: Size | null, known: string, notKnown: string): readonly string[] => {
    if (mm === null) return [];
    return [mm === 'unknown' ? notKnown : filled(known, { mm: mmText(mm, words) })];
  };
  const { otherDamageMm, earlierRepairMm, repairsOnPane } = place;
  const repairs =
    repairsOnPane === 'unknown'
      ? beside.repairsNotCounted
      : filled(beside.repairs, { count: String(repairsOnPane) });
  const { edgesReached } = damage;
  const parts = [
    ...near(otherDamageMm, beside.otherDamage, beside.otherDamageNotKnown),
    ...near(earlierRepairMm, beside.earlierRepair, beside.earlierRepairNotKnown),
    ...(repairsOnPane === 0 ? [] : [repairs]),
    ...(damage.repairedBefore === true ? [beside.resinInside] : []),
    ...(edgesReached !== 'unknown' && edgesReached > 0
      ? [filled(beside.runsToEdges, { count: String(edgesReached) })]
      : []),
  ];
  return parts.length === 0 ? [] : [parts.join(' ')];
}

function centresText(
  { wheelCentreMm, seatCentreMm }: IntakeSheet['pane'],
  words: DrawingWords,
): string {
  const { centres } = words;
  const from = (mm: Size, known: string, notKnown: string): string =>
    mm === 'unknown' ? notKnown : filled(known, { mm: mmText(mm, words) });
  return filled(centres.both, {
    wheel: from(wheelCentreMm, centres.wheel, centres.wheelNotKnown),
    seat: from(seatCentreMm, centres.seat, centres.seatNotKnown),
  });
}

const courseTexts = (
  { damage }: IntakeSheet,
  { course, directions }: DrawingWords,
): readonly string[] =>
  damage.type === 'crack'
    ? [course]
    : damage.type === 'bullseye' || damage.type === 'surface-pit'
      ? []
      : [directions];
