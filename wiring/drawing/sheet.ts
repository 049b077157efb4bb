/**
 * A sheet: blocks with parts, wires and net labels in grid units, and their conversion into shapes.
 * A part's terminals come from its symbol, so that a test can check every wire against the circuit.
 * It knows no circuit of its own: sheets receive the parts that they draw.
 */
import type { PartType, SymbolName } from '../parts/part-type.ts';
import {
  filled,
  GRID_MM,
  line,
  type Point,
  placed,
  placedShape,
  rectangle,
  type Shape,
  type Text,
  type Turn,
  text,
} from './shapes.ts';
import { type BoxForm, boxDrawn, type Drawn, SYMBOLS } from './symbols.ts';

/** A4 landscape. */
export const PAPER_MM = { width: 297, height: 210 } as const;
export const PAPER = {
  width: PAPER_MM.width / GRID_MM,
  height: PAPER_MM.height / GRID_MM,
} as const;
const MARGIN = 2.8;

export type Side = 'left' | 'right' | 'up' | 'down';

export interface Placement {
  readonly part: string;
  readonly at: Point;
  readonly turn: Turn;
  /** Side of the part for its name and value; for boxes: above. */
  readonly words: Side;
}
export interface Wire {
  readonly net: string;
  readonly points: readonly Point[];
}
export interface Label {
  readonly net: string;
  readonly at: Point;
  readonly side: Side;
}
/** All positions count from the block's top left corner. */
export interface Block {
  readonly title: string;
  readonly at: Point;
  readonly size: Point;
  readonly placements: readonly Placement[];
  readonly wires: readonly Wire[];
  readonly labels: readonly Label[];
  readonly notes: readonly Text[];
  /** Decoration without any net. */
  readonly extras?: readonly Shape[];
}
export interface Sheet {
  readonly file: string;
  readonly title: string;
  readonly blocks: readonly Block[];
  readonly notes: readonly string[];
}

/** What a sheet needs to know of a part. */
export interface Catalogue {
  readonly typeOf: (part: string) => PartType;
  readonly formOf: (part: string) => BoxForm;
  /** The circuit's name for a terminal of a part. */
  readonly endOf: (part: string, terminal: string) => string;
}

export function drawnPart(part: string, catalogue: Catalogue): Drawn {
  const { symbol } = catalogue.typeOf(part);
  return symbol === 'module' ? boxDrawn(catalogue.formOf(part)) : SYMBOLS[symbol];
}

/** Position of each terminal of a placed part, in the block. */
export function terminalsOf(
  { part, at, turn }: Placement,
  catalogue: Catalogue,
): readonly (readonly [end: string, at: Point])[] {
  const { terminals } = drawnPart(part, catalogue);
  return Object.entries(terminals).map(([name, point]) => [
    catalogue.endOf(part, name),
    placed(point, at, turn),
  ]);
}

/** Half the width of a symbol, where it is wider than a resistor's. */
const WIDE: Partial<Record<SymbolName, number>> = {
  coil: 0.6,
  motor: 0.8,
  led: 1.2,
  thermistor: 0.5,
  nmos: 0.6,
  pmos: 0.6,
};

/** Lying parts carry name and value on one line above or below, standing ones on two at a side. */
function wordsOf({ part, at: [x, y], words }: Placement, catalogue: Catalogue): readonly Text[] {
  const { symbol, value } = catalogue.typeOf(part);
  const whole = `${part} ${value}`;
  if (symbol === 'module') return [text([x, y - 0.5], 'start', whole)];
  if (words === 'up') return [text([x, y - 1.1], 'middle', whole)];
  if (words === 'down') return [text([x, y + 1.7], 'middle', whole)];
  const away = 1.3 + (WIDE[symbol] ?? 0);
  const [atX, anchor] =
    words === 'left' ? ([x - away, 'end'] as const) : ([x + away, 'start'] as const);
  return [text([atX, y - 0.2], anchor, part), text([atX, y + 1], anchor, value)];
}

const GROUND = [
  line([-0.9, 0], [0.9, 0]),
  line([-0.55, 0.3], [0.55, 0.3]),
  line([-0.2, 0.6], [0.2, 0.6]),
];
const TAIL = 0.8;
const OUTWARD: Readonly<Record<Side, Point>> = {
  left: [-1, 0],
  right: [1, 0],
  up: [0, -1],
  down: [0, 1],
};

function labelShapes({ net, at: [x, y], side }: Label): readonly Shape[] {
  const [dx, dy] = OUTWARD[side];
  const tip: Point = [x + dx * TAIL, y + dy * TAIL];
  const tail = line([x, y], tip);
  if (net === 'GND' && side === 'down') {
    return [tail, ...GROUND.map((shape) => placedShape(shape, tip, 0))];
  }
  if (side === 'up')
    return [
      tail,
      filled([x, tip[1] - 0.5], [x - 0.35, tip[1]], [x + 0.35, tip[1]], [x, tip[1] - 0.5]),
      text([x, tip[1] - 1], 'middle', net),
    ];
  if (side === 'down') return [tail, text([x, tip[1] + 1], 'middle', net)];
  return [
    tail,
    { kind: 'circle', at: tip, radius: 0.2, filled: false },
    text([tip[0] + dx * 0.5, y + 0.35], side === 'left' ? 'end' : 'start', net),
  ];
}

/** A dot where a wire of a net ends on the inside of another, or three ends meet. */
function dots(wires: readonly Wire[], labels: readonly Label[]): readonly Shape[] {
  const ends = wires.flatMap(({ net, points }) =>
    [points[0], points.at(-1)].map((point) => ({ net, point })),
  );
  const seen = new Set<string>();
  return ends.flatMap(({ net, point }) => {
    if (point === undefined || seen.has(String(point))) return [];
    const meets = wires
      .filter((wire) => wire.net === net)
      .reduce((sum, wire) => sum + branchesAt(wire.points, point), 0);
    const labelled = labels.filter(({ at }) => same(at, point)).length;
    if (meets + labelled < 3) return [];
    seen.add(String(point));
    return [{ kind: 'circle', at: point, radius: 0.25, filled: true } as const];
  });
}

function branchesAt(points: readonly Point[], point: Point): number {
  return segments(points).reduce((sum, [from, to]) => {
    if (!onSegment(point, from, to)) return sum;
    return sum + (same(point, from) || same(point, to) ? 1 : 2);
  }, 0);
}

export const segments = (points: readonly Point[]): readonly (readonly [Point, Point])[] =>
  points.slice(1).flatMap((to, index) => {
    const from = points[index];
    return from === undefined ? [] : [[from, to] as const];
  });

const same = (a: Point, b: Point): boolean => a[0] === b[0] && a[1] === b[1];

/** Wires run along the grid only. */
export function onSegment([x, y]: Point, [x1, y1]: Point, [x2, y2]: Point): boolean {
  const inX = x >= Math.min(x1, x2) && x <= Math.max(x1, x2);
  const inY = y >= Math.min(y1, y2) && y <= Math.max(y1, y2);
  return inX && inY && (x1 === x2 || y1 === y2);
}

export function blockShapes(block: Block, catalogue: Catalogue): readonly Shape[] {
  const inner: readonly Shape[] = [
    ...(block.extras ?? []),
    ...block.wires.map(({ points }) => line(...points)),
    ...dots(block.wires, block.labels),
    ...block.labels.flatMap(labelShapes),
    ...block.placements.flatMap((placement) => [
      ...drawnPart(placement.part, catalogue).shapes.map((shape) =>
        placedShape(shape, placement.at, placement.turn),
      ),
      ...wordsOf(placement, catalogue),
    ]),
    ...block.notes,
    { ...text([0.8, 1.3], 'start', block.title), bold: true },
    rectangle(0, 0, ...block.size),
  ];
  return inner.map((shape) => placedShape(shape, block.at, 0));
}

/** Everything on a sheet, in grid units from the paper's top left corner. */
export function sheetShapes(sheet: Sheet, catalogue: Catalogue): readonly Shape[] {
  const width = PAPER.width - 2 * MARGIN;
  const height = PAPER.height - 2 * MARGIN;
  const frame: Shape = { ...rectangle(MARGIN, MARGIN, width, height), heavy: true };
  const title: Text = {
    ...text([MARGIN + 1, MARGIN + 2.2], 'start', sheet.title),
    bold: true,
    sizeMm: 4,
  };
  const notes = sheet.notes.map((words, index) =>
    text(
      [MARGIN + 1, PAPER.height - MARGIN - 0.8 - (sheet.notes.length - 1 - index) * 1.3],
      'start',
      words,
    ),
  );
  return [
    frame,
    title,
    ...notes,
    ...sheet.blocks.flatMap((block) => blockShapes(block, catalogue)),
  ];
}
