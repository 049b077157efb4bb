/**
 * The notes below the drawing: the damage, each lettered area with the position of the damage
 * relative to it, what cannot be drawn because it is not known, and what else is on the pane.
 */

import type { RuleSet } from '../rules/rule-set.ts';
import type { IntakeSheet } from '../sheet/intake-sheet.ts';
import { mmWords } from './dimension-lines.ts';
import { type Circle, lies } from './distances.ts';
import { type DrawnArea, type Shape, type Shapes, shortNameOf } from './shapes.ts';

export interface Note {
  /** Letter of a drawn area, shown with its line and hatch; null for a plain note. */
  readonly letter: string | null;
  readonly text: string;
}

const DAMAGE_WORDS = {
  bullseye: 'bullseye',
  'half-moon': 'half moon',
  'star-break': 'star break',
  'combination-break': 'combination break',
  crack: 'crack',
  'surface-pit': 'surface pit',
  unknown: 'damage of unknown type',
} as const;

type Size = number | 'unknown';

const size = (words: string, mm: Size): string =>
  mm === 'unknown' ? `${words} not known` : `${words} ${mmWords(mm)} mm`;

function damageWords({ damage }: IntakeSheet): string {
  const { type, diameterMm, bodyMm, pitMm, legs, longestLegMm, depthMm } = damage;
  const legged = type === 'star-break' || type === 'combination-break';
  return [
    DAMAGE_WORDS[type],
    type === 'crack' ? size('length', longestLegMm) : size('width', diameterMm),
    ...(type === 'combination-break' ? [size('body', bodyMm)] : []),
    size('pit', pitMm),
    ...(legged ? [legs === 'unknown' ? 'legs not counted' : `${legs} legs`] : []),
    ...(legged ? [size('longest leg', longestLegMm)] : []),
    size('depth', depthMm),
  ].join(', ');
}

export function notesOf(
  sheet: IntakeSheet,
  ruleSets: readonly RuleSet[],
  shapes: Shapes,
  circle: Circle | null,
): readonly Note[] {
  const plain = (text: string): Note => ({ letter: null, text });
  return [
    plain(`Damage: ${damageWords(sheet)}.`),
    plain(placeWords(sheet)),
    ...shapes.drawn.map((shape) => ({ letter: shape.letter, text: shapeWords(shape, circle) })),
    ...listWords('Not drawn, because the answers needed are not known', shapes.notKnown),
    ...listWords('Not on this pane', shapes.notOnThisPane),
    ...besideWords(sheet).map(plain),
    ...ruleSets.map((set) => plain(`${shortNameOf(set, ruleSets)}: ${set.name}, ${set.edition}.`)),
    plain(`${centreWords(sheet.pane)} ${measuredWords(circle)}${courseWords(sheet)}`),
  ];
}

const areaWords = ({ words, of }: DrawnArea): string => (of === null ? words : `${words} (${of})`);

function shapeWords({ areas, rect }: Shape, circle: Circle | null): string {
  const names = areas.map(areaWords).join('; ');
  if (circle === null) return `${names}.`;
  const how = lies(circle, rect);
  return `${names}: damage ${typeof how === 'number' ? `${mmWords(how)} mm away` : how}.`;
}

const listWords = (head: string, areas: readonly DrawnArea[]): readonly Note[] =>
  areas.length === 0
    ? []
    : [{ letter: null, text: `${head}: ${areas.map(areaWords).join('; ')}.` }];

function placeWords({ place, pane }: IntakeSheet): string {
  const missing = [
    ...(pane.widthMm === 'unknown' ? ['width of the pane'] : []),
    ...(pane.heightMm === 'unknown' ? ['height of the pane'] : []),
    ...(place.fromLeftMm === 'unknown' ? ['distance from the left edge'] : []),
    ...(place.fromTopMm === 'unknown' ? ['distance from the upper edge'] : []),
    ...(pane.sweep === 'unknown' ? ['swept area'] : []),
    ...(pane.driverSide === 'unknown' ? ['driver’s side'] : []),
  ];
  const at =
    place.fromLeftMm === 'unknown' || place.fromTopMm === 'unknown'
      ? 'The position on the pane is not known.'
      : `Position: ${mmWords(place.fromLeftMm)} mm from the left edge, ` +
        `${mmWords(place.fromTopMm)} mm from the upper edge.`;
  return missing.length === 0 ? at : `${at} NOT KNOWN: ${missing.join(', ')}.`;
}

function besideWords({ place, damage }: IntakeSheet): readonly string[] {
  const near = (what: string, mm: Size | null): readonly string[] => {
    if (mm === null) return [];
    return [mm === 'unknown' ? `${what}: not known.` : `${what}: ${mmWords(mm)} mm away.`];
  };
  const parts = [
    ...near('Nearest other damage', place.otherDamageMm),
    ...near('Nearest earlier repair', place.earlierRepairMm),
    ...(place.repairsOnPane === 0
      ? []
      : [
          place.repairsOnPane === 'unknown'
            ? 'Repairs on the pane: not counted.'
            : `Repairs on the pane: ${place.repairsOnPane}.`,
        ]),
    ...(damage.repairedBefore === true ? ['This damage already contains resin.'] : []),
    ...(damage.edgesReached !== 'unknown' && damage.edgesReached > 0
      ? [`It runs to ${damage.edgesReached} of the edges, seal or trim.`]
      : []),
  ];
  return parts.length === 0 ? [] : [parts.join(' ')];
}

function centreWords({ wheelCentreMm, seatCentreMm }: IntakeSheet['pane']): string {
  const from = (what: string, mm: Size): string =>
    mm === 'unknown' ? `${what} not known` : `${what} ${mmWords(mm)} mm from the left edge`;
  return `${from('Wheel centre line', wheelCentreMm)}, ${from('seat centre line', seatCentreMm)}.`;
}

const measuredWords = (circle: Circle | null): string =>
  circle === null
    ? 'No distances are drawn, because the position or size of the damage is not known.'
    : 'Distances in mm, from the rim of the damage.';

const courseWords = ({ damage }: IntakeSheet): string =>
  damage.type === 'crack'
    ? ' The dashed circle holds the crack whichever way it runs; its course is schematic.'
    : damage.type === 'bullseye' || damage.type === 'surface-pit'
      ? ''
      : ' Directions are schematic.';
