/**
 * Areas of a pane as data, and the position of each on a given pane: a rectangle in millimetres
 * from the pane's left and top edges, seen from the driver's seat. An area with a missing input is
 * "unknown"; one that the pane does not have (two strips that do not overlap) is null. The rule
 * sets say what holds in an area, `footprint.ts` what lies in it.
 */
import { z } from 'zod';
import { choice, quantity } from '../../core/settings.ts';
import type { IntakeSheet, Unknown } from './intake-sheet.ts';

export type Pane = IntakeSheet['pane'];

export interface Rect {
  readonly leftMm: number;
  readonly topMm: number;
  readonly rightMm: number;
  readonly bottomMm: number;
}

/**
 * A rectangle, null where this pane has no such place, or unknown where the answers do not
 * determine it.
 */
export type Place = Rect | null | Unknown;

const about = choice(['wheel', 'seat']);
/** Of a box also the middle of the driver's half of the wiped area. */
const boxAbout = choice(['wheel', 'seat', 'swept-half']);
/** The line on which the middle of a box lies. */
const LEVELS = ['swept-middle', 'seat-line'] as const;
const widthMm = quantity(10, 3500, 'mm');
const border = quantity(0, 2500, 'mm').default(0);

const box = { about: boxAbout, level: choice(LEVELS), widthMm, heightMm: quantity(10, 2500, 'mm') };

const simpleAreaSchema = z.discriminatedUnion(
  'kind',
  [
    z.strictObject({ kind: z.literal('whole') }),
    z.strictObject({ kind: z.literal('sweep') }),
    /** From the driver's border of the wiped area to its middle. */
    z.strictObject({ kind: z.literal('swept-half') }),
    /** Everything that lies no higher than the wiped area. */
    z.strictObject({ kind: z.literal('below-sweep-top') }),
    /** From the driver's edge to the middle of the pane. */
    z.strictObject({ kind: z.literal('driver-half') }),
    /** From the driver's edge inwards. */
    z.strictObject({ kind: z.literal('driver-band'), widthMm }),
    z.strictObject({ kind: z.literal('above-wheel') }),
    /** From top to bottom, half its width on each side of the centre line. */
    z.strictObject({ kind: z.literal('strip'), about, widthMm }),
    /** A box about a centre line, its middle on the level. */
    z.strictObject({ kind: z.literal('box'), ...box }),
    /** From such a box to its mirror image on the other half of the pane, with the gap between. */
    z.strictObject({ kind: z.literal('across'), ...box }),
    /** Under the inside mirror. */
    z.strictObject({ kind: z.literal('under-mirror') }),
    /** On both sides of the bar of a divided pane, half its width each. */
    z.strictObject({ kind: z.literal('divider'), widthMm }),
    /** What remains inside borders of given width. */
    z.strictObject({
      kind: z.literal('inset'),
      leftMm: border,
      rightMm: border,
      topMm: border,
      bottomMm: border,
    }),
  ],
  {
    error:
      'an area of kind whole, sweep, swept-half, below-sweep-top, driver-half, driver-band, above-wheel, strip, box, across, under-mirror, divider, inset or both',
  },
);

export const areaSchema = z.union([
  simpleAreaSchema,
  /** The overlap of all parts. */
  z.strictObject({ kind: z.literal('both'), parts: z.array(simpleAreaSchema).min(2).max(5) }),
]);

export type SimpleArea = z.infer<typeof simpleAreaSchema>;
export type Area = z.infer<typeof areaSchema>;

export function rectOf(area: Area, pane: Pane): Place {
  if (area.kind !== 'both') return simpleRect(area, pane);
  const places = area.parts.map((part) => simpleRect(part, pane));
  if (places.includes(null)) return null;
  return places.reduce<Place>(
    (sum, place) =>
      sum === null || sum === 'unknown' || place === null || place === 'unknown'
        ? unknownUnlessNowhere(sum, place)
        : overlap(sum, place),
    wholePane(pane),
  );
}

const unknownUnlessNowhere = (a: Place, b: Place): Place =>
  a === null || b === null ? null : 'unknown';

function wholePane({ widthMm, heightMm }: Pane): Rect | Unknown {
  if (widthMm === 'unknown' || heightMm === 'unknown') return 'unknown';
  return { leftMm: 0, topMm: 0, rightMm: widthMm, bottomMm: heightMm };
}

/** Clipped to the pane: a strip near the edge is narrower there. */
function simpleRect(area: SimpleArea, pane: Pane): Place {
  const whole = wholePane(pane);
  if (whole === 'unknown') return 'unknown';
  const sides = sidesOf(area, pane, whole);
  if (sides === 'unknown' || sides === null) return sides;
  return overlap(whole, { ...whole, ...sides });
}

/** Null where the pane has no such place. */
function sidesOf(area: SimpleArea, pane: Pane, whole: Rect): Partial<Rect> | null | Unknown {
  switch (area.kind) {
    case 'whole':
      return {};
    case 'sweep':
      return sweptRect(pane, whole);
    case 'swept-half':
      return sweptHalf(pane, whole);
    case 'below-sweep-top':
      return pane.sweep === 'unknown' ? 'unknown' : { topMm: pane.sweep.topMm };
    case 'inset':
      return insetSides(area, whole);
    case 'driver-half':
      return driverSide(pane, whole, whole.rightMm / 2);
    case 'driver-band':
      return driverSide(pane, whole, area.widthMm);
    case 'above-wheel':
      return pane.wheelTopMm === 'unknown'
        ? 'unknown'
        : { bottomMm: whole.bottomMm - pane.wheelTopMm };
    case 'strip':
      return around(centreMm(area.about, pane, whole), area.widthMm);
    case 'box':
      return boxSides(area, pane, whole);
    case 'across':
      return withMirrorImage(boxSides(area, pane, whole), whole);
    case 'under-mirror':
      return pane.mirror === 'unknown' ? 'unknown' : insetSides(pane.mirror, whole);
    case 'divider':
      return pane.dividedAtMm === null ? null : around(pane.dividedAtMm, area.widthMm);
  }
}

type Borders = Exclude<Pane['sweep'], Unknown>;

const insetSides = (borders: Borders, whole: Rect): Rect => ({
  leftMm: borders.leftMm,
  topMm: borders.topMm,
  rightMm: whole.rightMm - borders.rightMm,
  bottomMm: whole.bottomMm - borders.bottomMm,
});

const sweptRect = ({ sweep }: Pane, whole: Rect): Rect | Unknown =>
  sweep === 'unknown' ? 'unknown' : insetSides(sweep, whole);

function driverSide(pane: Pane, whole: Rect, widthMm: number): Partial<Rect> | Unknown {
  if (pane.driverSide === 'unknown') return 'unknown';
  return pane.driverSide === 'left' ? { rightMm: widthMm } : { leftMm: whole.rightMm - widthMm };
}

function sweptHalf(pane: Pane, whole: Rect): Rect | Unknown {
  const swept = sweptRect(pane, whole);
  if (swept === 'unknown' || pane.driverSide === 'unknown') return 'unknown';
  const middleMm = (swept.leftMm + swept.rightMm) / 2;
  return pane.driverSide === 'left'
    ? { ...swept, rightMm: middleMm }
    : { ...swept, leftMm: middleMm };
}

type Centre = z.infer<typeof boxAbout>;

function centreMm(of: Centre, pane: Pane, whole: Rect): number | Unknown {
  if (of !== 'swept-half') return of === 'wheel' ? pane.wheelCentreMm : pane.seatCentreMm;
  const half = sweptHalf(pane, whole);
  return half === 'unknown' ? 'unknown' : (half.leftMm + half.rightMm) / 2;
}

const around = (middleMm: number | Unknown, widthMm: number) =>
  middleMm === 'unknown'
    ? 'unknown'
    : { leftMm: middleMm - widthMm / 2, rightMm: middleMm + widthMm / 2 };

type Box = Extract<SimpleArea, { kind: 'box' | 'across' }>;

function boxSides(box: Box, pane: Pane, whole: Rect): Rect | Unknown {
  const strip = around(centreMm(box.about, pane, whole), box.widthMm);
  const levelMm = LEVEL_MM[box.level](pane, whole);
  if (strip === 'unknown' || levelMm === 'unknown') return 'unknown';
  return { ...strip, topMm: levelMm - box.heightMm / 2, bottomMm: levelMm + box.heightMm / 2 };
}

const LEVEL_MM: Readonly<
  Record<(typeof LEVELS)[number], (pane: Pane, whole: Rect) => number | Unknown>
> = {
  'swept-middle': (pane, whole) => {
    const swept = sweptRect(pane, whole);
    return swept === 'unknown' ? 'unknown' : (swept.topMm + swept.bottomMm) / 2;
  },
  'seat-line': ({ seatLineMm }, whole) =>
    seatLineMm === 'unknown' ? 'unknown' : whole.bottomMm - seatLineMm,
};

/** Stretched over the middle of the pane to the same distance on its other half. */
function withMirrorImage(rect: Rect | Unknown, { rightMm }: Rect): Rect | Unknown {
  if (rect === 'unknown') return 'unknown';
  return {
    ...rect,
    leftMm: Math.min(rect.leftMm, rightMm - rect.rightMm),
    rightMm: Math.max(rect.rightMm, rightMm - rect.leftMm),
  };
}

/** Null where they do not overlap; a shared border alone still counts as a place. */
function overlap(a: Rect, b: Rect): Rect | null {
  const rect = {
    leftMm: Math.max(a.leftMm, b.leftMm),
    topMm: Math.max(a.topMm, b.topMm),
    rightMm: Math.min(a.rightMm, b.rightMm),
    bottomMm: Math.min(a.bottomMm, b.bottomMm),
  };
  return rect.leftMm > rect.rightMm || rect.topMm > rect.bottomMm ? null : rect;
}
