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
const widthMm = quantity(10, 3500, 'mm');
const border = quantity(0, 2500, 'mm').default(0);

const simpleAreaSchema = z.discriminatedUnion(
  'kind',
  [
    z.strictObject({ kind: z.literal('whole') }),
    z.strictObject({ kind: z.literal('sweep') }),
    /** From the driver's edge to the middle of the pane. */
    z.strictObject({ kind: z.literal('driver-half') }),
    /** From the driver's edge inwards. */
    z.strictObject({ kind: z.literal('driver-band'), widthMm }),
    z.strictObject({ kind: z.literal('above-wheel') }),
    /** From top to bottom, half its width on each side of the centre line. */
    z.strictObject({ kind: z.literal('strip'), about, widthMm }),
    /** Stands on the horizontal line through the top of the steering wheel. */
    z.strictObject({
      kind: z.literal('box'),
      about,
      widthMm,
      heightMm: quantity(10, 2500, 'mm'),
    }),
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
      'an area of kind whole, sweep, driver-half, driver-band, above-wheel, strip, box, inset or both',
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
  return sides === 'unknown' ? 'unknown' : overlap(whole, { ...whole, ...sides });
}

function sidesOf(area: SimpleArea, pane: Pane, whole: Rect): Partial<Rect> | Unknown {
  switch (area.kind) {
    case 'whole':
      return {};
    case 'sweep':
      return pane.sweep === 'unknown' ? 'unknown' : insetSides(pane.sweep, whole);
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
      return stripSides(area, pane);
    case 'box':
      return boxSides(area, pane, whole);
  }
}

type Borders = Exclude<Pane['sweep'], Unknown>;

const insetSides = (borders: Borders, whole: Rect): Rect => ({
  leftMm: borders.leftMm,
  topMm: borders.topMm,
  rightMm: whole.rightMm - borders.rightMm,
  bottomMm: whole.bottomMm - borders.bottomMm,
});

function driverSide(pane: Pane, whole: Rect, widthMm: number): Partial<Rect> | Unknown {
  if (pane.driverSide === 'unknown') return 'unknown';
  return pane.driverSide === 'left' ? { rightMm: widthMm } : { leftMm: whole.rightMm - widthMm };
}

type Centred = { readonly about: 'wheel' | 'seat'; readonly widthMm: number };

function stripSides({ about, widthMm }: Centred, pane: Pane): Partial<Rect> | Unknown {
  const centreMm = about === 'wheel' ? pane.wheelCentreMm : pane.seatCentreMm;
  if (centreMm === 'unknown') return 'unknown';
  return { leftMm: centreMm - widthMm / 2, rightMm: centreMm + widthMm / 2 };
}

function boxSides(box: Centred & { readonly heightMm: number }, pane: Pane, whole: Rect) {
  const strip = stripSides(box, pane);
  if (strip === 'unknown' || pane.wheelTopMm === 'unknown') return 'unknown';
  const bottomMm = whole.bottomMm - pane.wheelTopMm;
  return { ...strip, topMm: bottomMm - box.heightMm, bottomMm };
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
