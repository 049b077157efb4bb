/**
 * The symbols, close to IEC 60617 (from memory), each drawn around its centre and upright:
 * two-ended parts have terminal `a` at the top. Modules are boxes with named terminals, listed here
 * because their size is a matter of the drawing.
 */
import type { SymbolName } from '../parts/part-type.ts';
import { filled, line, type Point, rectangle, type Shape, type Text, text } from './shapes.ts';

export interface Drawn {
  readonly shapes: readonly Shape[];
  readonly terminals: Readonly<Record<string, Point>>;
}

const TOP: Point = [0, -2];
const BOTTOM: Point = [0, 2];
const ENDS = { a: TOP, b: BOTTOM } as const;
const circle = (at: Point, radius: number, isFilled = false): Shape => ({
  kind: 'circle',
  at,
  radius,
  filled: isFilled,
});

const twoEnded = (...shapes: Shape[]): Drawn => ({ shapes, terminals: ENDS });
const leads = (half: number): readonly Shape[] => [line(TOP, [0, -half]), line([0, half], BOTTOM)];
const body = [rectangle(-0.5, -1.2, 1, 2.4), ...leads(1.2)];

/** Cathode at the top. */
const diodeShapes = [
  line(TOP, BOTTOM),
  filled([0, -0.7], [-0.7, 0.6], [0.7, 0.6], [0, -0.7]),
  line([-0.7, -0.7], [0.7, -0.7]),
];
const diode = (...more: Shape[]): Drawn => ({
  shapes: [...diodeShapes, ...more],
  terminals: { K: TOP, A: BOTTOM },
});
const ray = (y: number): readonly Shape[] => [
  line([1, y], [1.9, y - 0.6]),
  filled([1.9, y - 0.6], [1.5, y - 0.6], [1.7, y - 0.2], [1.9, y - 0.6]),
];

/** Gate left, drain (source for the P-channel) at the top. */
const mosfetShapes = [
  line([-2, 0], [-0.6, 0]),
  line([-0.6, -1], [-0.6, 1]),
  line([-0.2, -1.1], [-0.2, -0.5]),
  line([-0.2, -0.3], [-0.2, 0.3]),
  line([-0.2, 0.5], [-0.2, 1.1]),
  line([-0.2, -0.8], [1, -0.8], [1, -2]),
  line([-0.2, 0.8], [1, 0.8], [1, 2]),
];
const arrow = (tipX: number, baseX: number, y: number): Shape =>
  filled([tipX, y], [baseX, y - 0.3], [baseX, y + 0.3], [tipX, y]);
const MOSFET_TOP: Point = [1, -2];
const MOSFET_BOTTOM: Point = [1, 2];
const GATE: Point = [-2, 0];

export const SYMBOLS: Readonly<Record<Exclude<SymbolName, 'module'>, Drawn>> = {
  resistor: twoEnded(...body),
  thermistor: twoEnded(...body, line([-1.2, 1.2], [-0.8, 1.2], [1, -1.2])),
  fuse: twoEnded(rectangle(-0.5, -1.2, 1, 2.4), line(TOP, BOTTOM)),
  coil: twoEnded(rectangle(-1, -1.2, 2, 2.4), ...leads(1.2), line([-1, 1.2], [1, -1.2])),
  capacitor: twoEnded(
    ...leads(0.25),
    line([-0.9, -0.25], [0.9, -0.25]),
    line([-0.9, 0.25], [0.9, 0.25]),
  ),
  motor: twoEnded(circle([0, 0], 1.3), ...leads(1.3), text([0, 0.35], 'middle', 'M')),
  /** Normally closed: the arm reaches past the stop. */
  contact: twoEnded(line(TOP, [0, -1], [0.7, -1]), line([0, 2], [0, 1], [0.6, -1.4])),
  button: twoEnded(
    line(TOP, [0, -1]),
    line([0, 2], [0, 1], [-0.8, -0.9]),
    line([-0.4, 0], [-1.5, 0]),
    line([-1.5, -0.5], [-1.5, 0.5]),
  ),
  diode: diode(),
  suppressor: diode(line([-0.7, -0.7], [-0.7, -0.3]), line([0.7, -0.7], [0.7, -1.1])),
  led: diode(...ray(-0.2), ...ray(0.7)),
  nmos: {
    shapes: [...mosfetShapes, line([-0.2, 0], [1, 0], [1, 0.8]), arrow(-0.1, 0.5, 0)],
    terminals: { G: GATE, D: MOSFET_TOP, S: MOSFET_BOTTOM },
  },
  pmos: {
    shapes: [...mosfetShapes, line([-0.2, 0], [1, 0], [1, -0.8]), arrow(0.7, 0.1, 0)],
    terminals: { G: GATE, S: MOSFET_TOP, D: MOSFET_BOTTOM },
  },
};

/** Terminals of a box down its two sides, two units apart; an empty name leaves a gap. */
export interface BoxForm {
  readonly width: number;
  readonly left: readonly string[];
  readonly right: readonly string[];
  /** What the box shows instead of a terminal's own name. */
  readonly shown?: Readonly<Record<string, string>>;
}

export const PITCH = 2;

/** Relative to the top left corner of the box. */
export function boxDrawn({ width, left, right, shown = {} }: BoxForm): Drawn {
  const height = Math.max(left.length, right.length) * PITCH;
  const y = (index: number): number => index * PITCH + PITCH / 2;
  const side = (names: readonly string[], x: number): (readonly [string, Point])[] =>
    names.flatMap((name, index) => (name === '' ? [] : [[name, [x, y(index)]] as const]));
  const inside =
    (anchor: 'start' | 'end', x: number) =>
    ([name, [, atY]]: readonly [string, Point]): Text =>
      text([x, atY + 0.35], anchor, shown[name] ?? name);
  const leftSide = side(left, 0);
  const rightSide = side(right, width);
  return {
    shapes: [
      rectangle(0, 0, width, height),
      ...leftSide.map(inside('start', 0.4)),
      ...rightSide.map(inside('end', width - 0.4)),
    ],
    terminals: Object.fromEntries([...leftSide, ...rightSide]),
  };
}
