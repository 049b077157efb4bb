/** Sheet 4: the air side. */
import { PRESSURE_LADDER_KPA } from '../parts/pneumatics.ts';
import { block, noteLines, standing, wire } from './build.ts';
import { filled, line, type Point, rectangle, type Shape, text } from './shapes.ts';
import type { Sheet } from './sheet.ts';
import type { BoxForm } from './symbols.ts';

export const AIR_FORMS: Readonly<Record<string, BoxForm>> = {
  M1: { width: 14, left: [], right: ['inlet', '', 'outlet'] },
  Y2: { width: 18, left: ['inlet', '', 'outlet'], right: ['ambient', '', 'chamber'] },
  RV1: { width: 10, left: ['in'], right: [] },
  MB1: {
    width: 16,
    left: ['', '', 'selector'],
    right: ['vent', '', 'transmitter', '', 'switch', '', 'trap'],
  },
  Y1: { width: 13, left: ['chamber'], right: ['out'] },
  U3: { width: 13, left: ['port'], right: [] },
  S2: { width: 13, left: ['port'], right: [] },
  Z1: { width: 13, left: ['in', '', 'out'], right: [] },
  Z2: { width: 10, left: ['in'], right: [] },
  Z3: { width: 12, left: [], right: ['in'] },
  J1: { width: 13, left: ['hose'], right: [] },
};

/** Relief valves only release; filters pass air both ways. */
const toAir = ([x, y]: Point, direction: 1 | -1, bothWays: boolean): readonly Shape[] => [
  line([x, y], [x + direction * 3, y]),
  filled(
    [x + direction * 3, y],
    [x + direction * 2.2, y - 0.4],
    [x + direction * 2.2, y + 0.4],
    [x + direction * 3, y],
  ),
  ...(bothWays
    ? [filled([x, y], [x + direction * 0.8, y - 0.4], [x + direction * 0.8, y + 0.4], [x, y])]
    : []),
  text([x + direction * 3.5, y + 0.35], direction === 1 ? 'start' : 'end', 'air'),
];

const SQUARE = 8;
const WAYS = [1.5, 6.5] as const;

/** One position of the selector: chamber and ambient on top, inlet and outlet below. */
function position([x, y]: Point, caption: string, crossed: boolean): readonly Shape[] {
  const [left, right] = [x + WAYS[0], x + WAYS[1]];
  const bottom = y + SQUARE;
  // Air leaves the chamber (or ambient) into the inlet, and the outlet into the other.
  const inlet: readonly [Point, Point] = [
    [crossed ? right : left, y],
    [left, bottom],
  ];
  const outlet: readonly [Point, Point] = [
    [right, bottom],
    [crossed ? left : right, y],
  ];
  return [
    rectangle(x, y, SQUARE, SQUARE),
    ...[inlet, outlet].flatMap(([start, end]) => [line(start, end), head(start, end)]),
    text([left, y - 0.5], 'middle', 'chamber'),
    text([right + 0.6, y - 0.5], 'middle', 'air'),
    text([left - 0.3, bottom + 1.3], 'middle', 'inlet'),
    text([right + 0.6, bottom + 1.3], 'middle', 'outlet'),
    text([x + SQUARE / 2, bottom + 3.2], 'middle', caption),
  ];
}

function head([x1, y1]: Point, [x2, y2]: Point): Shape {
  const length = Math.hypot(x2 - x1, y2 - y1);
  const [ux, uy] = [(x2 - x1) / length, (y2 - y1) / length];
  const back: Point = [x2 - ux, y2 - uy];
  return filled(
    [x2, y2],
    [back[0] - uy * 0.4, back[1] + ux * 0.4],
    [back[0] + uy * 0.4, back[1] - ux * 0.4],
    [x2, y2],
  );
}

const { highestWorking, switchOpens, reliefOpens, pumpDeadHead } = PRESSURE_LADDER_KPA;

const AIR = block('Air side', [4, 6.6], [111, 69], {
  placements: [
    standing('M1', [8, 20]),
    standing('Y2', [42, 18]),
    standing('RV1', [32, 31]),
    standing('Z2', [72, 10]),
    standing('MB1', [70, 20]),
    standing('Z3', [94, 10]),
    standing('Y1', [94, 20]),
    standing('U3', [94, 24]),
    standing('S2', [94, 28]),
    standing('Z1', [94, 36]),
    standing('J1', [94, 46]),
  ],
  wires: [
    wire('INLET', [22, 21], [30, 21], [30, 19], [42, 19]),
    wire('OUTLET', [22, 25], [33, 25], [33, 23], [42, 23]),
    wire('OUTLET', [27, 25], [27, 32], [32, 32]),
    wire('AMBIENT', [60, 19], [64, 19], [64, 11], [72, 11]),
    wire('CHAMBER', [60, 23], [64, 23], [64, 25], [70, 25]),
    wire('VENT', [86, 21], [94, 21]),
    wire('GAUGE', [86, 25], [94, 25]),
    wire('GUARD', [86, 29], [94, 29]),
    wire('TRAP', [86, 33], [90, 33], [90, 37], [94, 37]),
    wire('HOSE', [94, 41], [90, 41], [90, 47], [94, 47]),
    wire('VENT_OUT', [107, 21], [109, 21], [109, 11], [106, 11]),
  ],
  extras: [
    ...toAir([42, 32], 1, false),
    ...toAir([82, 11], 1, true),
    ...toAir([94, 11], -1, true),
    ...position([50, 48], 'no power: vacuum', false),
    ...position([66, 48], 'D7 high: pressure', true),
  ],
  notes: [
    ...noteLines(
      [4, 42],
      [
        'Selector Y2, without power: chamber joined to the pump inlet,',
        'pump outlet to the air (vacuum). With power (D7 high): chamber',
        'joined to the pump outlet, pump inlet to the air (pressure).',
        '',
        'Vent Y1, without power: open. Closed only while D6 is high, S2 is',
        'closed and 12 V is there.',
        '',
        'On runaway pressure (kPa above the atmosphere, demo values):',
        `${highestWorking}: highest that the unit's settings accept`,
        `${switchOpens}: S2 opens: pump off, vent open, without software`,
        'about 204: firmware trips at 305 kPa ABSOLUTE, pump off, vent',
        '  open; later at higher altitude',
        `${reliefOpens}: RV1 opens: mechanical, without electricity`,
        `${pumpDeadHead}: dead head of the pump itself`,
        'Hose, trap, manifold and transmitter bear 600 kPa or more.',
      ],
    ),
  ],
});

export const PNEUMATICS: Sheet = {
  file: 'pneumatics.svg',
  title: 'Meniscus wiring 4 of 5: air side',
  blocks: [AIR],
  notes: [
    'A sketch of the connections; lengths and positions are free. Keep the paths between manifold, vent and relief valve short and wide.',
  ],
};
