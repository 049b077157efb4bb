/** Sheet 5: the way of the light, from the lamp to the resin, with all that watches it. */
import { LAMP_HEAD } from '../parts/lamp-head.ts';
import { block, noteLines } from './build.ts';
import { filled, line, type Point, rectangle, type Shape, type Text, text } from './shapes.ts';
import type { Sheet } from './sheet.ts';

const { heatSink, lens, outerPly, interlayer, innerPly } = LAMP_HEAD;

/** Twice its size: grid units on paper for a millimetre of the lamp head. */
const UNITS_PER_MM = 0.8;
const AXIS_X = 45;
const GLASS_Y = 44;
/** From the axis to the right, and up from the glass, mm. */
const at = (mm: number, overGlassMm: number): Point => [
  AXIS_X + UNITS_PER_MM * mm,
  GLASS_Y - UNITS_PER_MM * overGlassMm,
];
const box = (leftMm: number, topMm: number, widthMm: number, heightMm: number): Shape =>
  rectangle(...at(leftMm, topMm), widthMm * UNITS_PER_MM, heightMm * UNITS_PER_MM);

const GLASS_MM = 75;
const LENS_TOP = LAMP_HEAD.lampToGlass + lens.height;
const PLATE = 2;
const SINK_TOP = LENS_TOP + PLATE + heatSink.height;
/** The heat sink's base carries the shield. */
const BASE = 4;
const BASE_HALF = LAMP_HEAD.shieldInside / 2 + LAMP_HEAD.shieldWall;

function lampShapes(): readonly Shape[] {
  const half = heatSink.width / 2;
  const step = heatSink.width / heatSink.fins;
  const fins = Array.from({ length: heatSink.fins }, (_, n) =>
    box(-half + step * (n + 0.25), SINK_TOP, step / 2, heatSink.height - BASE),
  );
  const arc = Array.from({ length: 13 }, (_, n): Point => {
    const angle = (Math.PI * n) / 12;
    return at((lens.diameter / 2) * Math.cos(angle), LENS_TOP - lens.height * Math.sin(angle));
  });
  return [
    box(-BASE_HALF, LENS_TOP + PLATE + BASE, 2 * BASE_HALF, BASE),
    ...fins,
    box(-8, LENS_TOP + PLATE, 16, PLATE),
    line(...arc, at(lens.diameter / 2, LENS_TOP)),
    // Thermistor and thermal cut-out, side by side on the base of the heat sink.
    box(BASE_HALF, LENS_TOP + PLATE + BASE, 1.5, 3),
    box(-BASE_HALF - 3, LENS_TOP + PLATE + BASE, 3, 3),
  ];
}

function shieldShapes(): readonly Shape[] {
  const inside = LAMP_HEAD.shieldInside / 2;
  const { shieldWall: wall } = LAMP_HEAD;
  const top = LENS_TOP + PLATE;
  return [-inside - wall, inside].flatMap((left) => [
    box(left, top, wall, top - 1),
    // The soft foot.
    { ...box(left, 1, wall, 1), filled: true } as Shape,
  ]);
}

function glassShapes(): readonly Shape[] {
  const half = GLASS_MM / 2;
  const film = LAMP_HEAD.filmWidth / 2;
  const crack = (way: 1 | -1): Shape =>
    line(at(0, -1.4), at(way * 4, -1.7), at(way * 9, -outerPly + 0.2));
  return [
    box(-half, 0, GLASS_MM, outerPly),
    box(-half, -outerPly, GLASS_MM, interlayer),
    box(-half, -outerPly - interlayer, GLASS_MM, innerPly),
    filled(at(-1, 0), at(1, 0), at(0, -1.4), at(-1, 0)),
    crack(1),
    crack(-1),
    { ...line(at(-film, 0.2), at(film, 0.2)), heavy: true },
  ];
}

function lightShapes(): readonly Shape[] {
  const spot = LAMP_HEAD.spotDiameter / 2;
  const [lensHalf, y] = [lens.diameter / 2 - 0.5, LAMP_HEAD.lampToGlass + 1];
  const { sensorFromAxis: sensor, sensorOverGlass: over, sensorWidth } = LAMP_HEAD;
  return [
    line(at(-lensHalf, y), at(-spot, 0)),
    line(at(lensHalf, y), at(spot, 0)),
    // To the sensor, past the film.
    line(at(lensHalf, y), at(sensor, over + 1)),
    box(sensor - sensorWidth / 2, over + 1, sensorWidth, 2),
    box(-LAMP_HEAD.thermistorFromAxis - 1, 1.5, 2, 1.5),
  ];
}

/** A line with an arrow at both ends. */
function measured(from: Point, to: Point): readonly Shape[] {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const [ux, uy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const head = ([x, y]: Point, way: 1 | -1): Shape => {
    const [bx, by] = [x + way * ux, y + way * uy];
    return filled([x, y], [bx - uy * 0.3, by + ux * 0.3], [bx + uy * 0.3, by - ux * 0.3], [x, y]);
  };
  return [line(from, to), head(from, 1), head(to, -1)];
}

const BELOW_GLASS = GLASS_Y + 4;
const DIMENSIONS_X = 62;

/** Between two distances from the axis, on a line of its own below the glass. */
function across(fromMm: number, toMm: number, y: number, words: string): readonly Shape[] {
  const [fromX, toX] = [at(fromMm, 0)[0], at(toMm, 0)[0]];
  return [
    line([fromX, BELOW_GLASS], [fromX, y + 0.5]),
    line([toX, BELOW_GLASS], [toX, y + 0.5]),
    ...measured([fromX, y], [toX, y]),
    text([DIMENSIONS_X, y + 0.35], 'start', words),
  ];
}

function dimensions(): readonly Shape[] {
  const spot = LAMP_HEAD.spotDiameter / 2;
  const film = LAMP_HEAD.filmWidth / 2;
  const { spotEdgePercent, spotEdgeWithinPercent, sensorFromAxis, thermistorFromAxis } = LAMP_HEAD;
  const [, lensY] = at(0, LAMP_HEAD.lampToGlass);
  return [
    ...across(0, sensorFromAxis, 50, `light sensor ${sensorFromAxis} mm from the axis`),
    ...across(
      -spot,
      spot,
      53,
      `spot ${LAMP_HEAD.spotDiameter} mm: at its edge ${spotEdgePercent} ± ${spotEdgeWithinPercent} % of its centre`,
    ),
    ...across(-film, film, 56, `cover film ${LAMP_HEAD.filmWidth} mm`),
    ...across(
      -thermistorFromAxis,
      0,
      59,
      `glass thermistor ${thermistorFromAxis} mm from the axis`,
    ),
    line(at(-lens.diameter / 2, LAMP_HEAD.lampToGlass), [26.5, lensY]),
    ...measured([27, lensY], [27, GLASS_Y]),
    text([27.8, 34], 'start', `${LAMP_HEAD.lampToGlass} ± ${LAMP_HEAD.lampToGlassWithin} mm`),
  ];
}

const LEFT_X = 20;
const RIGHT_X = 79;

function named(side: 'left' | 'right', y: number, to: Point, ...lines: string[]): readonly Shape[] {
  const [x, anchor] = side === 'left' ? ([LEFT_X, 'end'] as const) : ([RIGHT_X, 'start'] as const);
  const words = lines.map((one, n): Text => text([x, y + 0.35 + 1.35 * n], anchor, one));
  return [...words, line([side === 'left' ? x + 0.5 : x - 0.5, y], to)];
}

function names(): readonly Shape[] {
  const { peakNm, sensorFromAxis, sensorOverGlass, thermistorFromAxis } = LAMP_HEAD;
  const sinkHalf = heatSink.width / 2;
  const onBase = LENS_TOP + PLATE + BASE - 1.5;
  const edge = GLASS_MM / 2;
  return [
    ...named('right', 10, at(sinkHalf - 2, SINK_TOP - 4), 'heat sink of E1'),
    ...named('right', 18, at(BASE_HALF + 1.5, onBase), 'RT2 its thermistor, A6'),
    ...named('right', 24, at(8, LENS_TOP + 1), `E1 UV LED ${peakNm} nm, lens`),
    ...named(
      'right',
      30,
      at(LAMP_HEAD.shieldInside / 2 + LAMP_HEAD.shieldWall, 16),
      'shield, closed: S3a and S3b',
    ),
    ...named(
      'right',
      36,
      at(sensorFromAxis + 1.5, sensorOverGlass),
      `U4 light sensor for ${peakNm} nm, A1:`,
      'beside spot and film, so that it shades',
      'no resin and looks through no film',
    ),
    ...named('right', 43.6, at(edge, -outerPly / 2), `outer ply ${outerPly} mm`),
    ...named('right', 45.9, at(edge, -outerPly - interlayer / 2), `interlayer ${interlayer} mm`),
    ...named(
      'right',
      48,
      at(edge, -outerPly - interlayer - innerPly / 2),
      `inner ply ${innerPly} mm`,
    ),
    ...named('left', 18, at(-BASE_HALF - 3, onBase), 'S4 thermal cut-out, 85 °C'),
    ...named('left', 32, at(-LAMP_HEAD.filmWidth / 2 + 1, 0.3), `cover film ${LAMP_HEAD.film} mm`),
    ...named('left', 39, at(-thermistorFromAxis - 1, 1), 'RT1 glass thermistor, A2'),
    ...named('left', 51, at(-1.2, -1.2), 'pit and break in the outer ply'),
  ];
}

const LIGHT_WAY = block('The way of the light, from the side, 2 : 1', [4, 6.6], [111, 69], {
  extras: [
    ...lampShapes(),
    ...shieldShapes(),
    ...glassShapes(),
    ...lightShapes(),
    ...dimensions(),
    ...names(),
  ],
  notes: noteLines(
    [0.8, 63],
    [
      'U4 is calibrated to read the light at the centre of the spot on the glass. Of that the film passes what the profile states,',
      'and the spot falls off towards its edge. Every target is stated at the resin; the unit works out what U4 must read for it.',
      `E1, U4, the reference radiometer and the resin mean one wavelength, ${LAMP_HEAD.peakNm} nm. Film, pit and break are drawn too thick.`,
    ],
  ),
});

export const LIGHT: Sheet = {
  file: 'light.svg',
  title: 'Meniscus wiring 5 of 5: light',
  blocks: [LIGHT_WAY],
  notes: [
    'Demo dimensions. Those of the light stand in the unit file (lightPath), and the dose reckons with them.',
  ],
};
