/**
 * Answers about pane, place, vehicle and day that cannot both be true: positions outside the pane,
 * the driver on the wrong side, repairs that both exist and do not.
 */
import { type ConflictRow, isNumber, isOneOf, over, sum } from './conflict-row.ts';
import type { IntakeSheet } from './intake-sheet.ts';

/** Seal or trim may cover this much of the glass: common practice, no source. */
const WIDEST_TRIM_MM = 50;
/** Far above what any such vehicle weighs: common practice, no source. */
const HEAVIEST_KG: Readonly<Record<string, number>> = { motorcycle: 1500, car: 6000, van: 7500 };
/** Ten years. */
const LONGEST_UNSOLD_DAYS = 3650;

const PANE_CONFLICTS: readonly ConflictRow[] = [
  {
    between: ['pane.sweep', 'pane.widthMm'],
    why: 'the distances from left and right leave no swept width',
    clash: ({ pane }) =>
      pane.sweep !== 'unknown' &&
      isNumber(pane.widthMm) &&
      pane.sweep.leftMm + pane.sweep.rightMm >= pane.widthMm,
  },
  {
    between: ['pane.sweep', 'pane.heightMm'],
    why: 'the distances from top and bottom leave no swept height',
    clash: ({ pane }) =>
      pane.sweep !== 'unknown' &&
      isNumber(pane.heightMm) &&
      pane.sweep.topMm + pane.sweep.bottomMm >= pane.heightMm,
  },
  ...(['wheelCentreMm', 'seatCentreMm'] as const).flatMap((centre): ConflictRow[] => [
    {
      between: [`pane.${centre}`, 'pane.widthMm'],
      why: 'the centre line lies beyond the right edge of the pane',
      clash: ({ pane }) => over(pane[centre], pane.widthMm),
    },
    {
      between: [`pane.${centre}`, 'pane.driverSide'],
      why: 'seen from the driver’s seat, the centre line lies on the other half of the pane',
      clash: ({ pane }) => onOtherHalf(pane, pane[centre]),
    },
  ]),
  {
    between: ['pane.wheelTopMm', 'pane.heightMm'],
    why: 'the steering wheel does not stand over the top of the pane',
    clash: ({ pane }) => over(pane.wheelTopMm, pane.heightMm),
  },
];

const PLACE_CONFLICTS: readonly ConflictRow[] = [
  {
    between: ['place.fromLeftMm', 'pane.widthMm'],
    why: 'the damage would lie beyond the right edge of the pane',
    clash: ({ place, pane }) => over(place.fromLeftMm, pane.widthMm),
  },
  {
    between: ['place.fromTopMm', 'pane.heightMm'],
    why: 'the damage would lie below the pane',
    clash: ({ place, pane }) => over(place.fromTopMm, pane.heightMm),
  },
  ...(['otherDamageMm', 'earlierRepairMm'] as const).map(
    (what): ConflictRow => ({
      between: [`place.${what}`, 'pane.widthMm'],
      why: 'nothing on the pane is farther away than its diagonal',
      clash: ({ place, pane }) =>
        isNumber(pane.widthMm) &&
        isNumber(pane.heightMm) &&
        over(place[what], Math.hypot(pane.widthMm, pane.heightMm)),
    }),
  ),
  {
    between: ['place.repairsOnPane', 'damage.repairedBefore'],
    why: 'a break that contains resin is a repair on this pane',
    clash: ({ place, damage }) => place.repairsOnPane === 0 && damage.repairedBefore === true,
  },
  {
    between: ['place.repairsOnPane', 'place.earlierRepairMm'],
    why: 'without a repair on the pane there is no distance to one',
    clash: ({ place }) => place.repairsOnPane === 0 && isNumber(place.earlierRepairMm),
  },
  {
    between: ['place.repairsOnPane', 'place.earlierRepairMm'],
    why: 'an existing repair has a distance',
    clash: ({ place, damage }) =>
      over(place.repairsOnPane, damage.repairedBefore === false ? 0 : 1) &&
      place.earlierRepairMm === null,
  },
  {
    between: ['damage.edgesReached', 'place.fromLeftMm'],
    why: 'the damage is too short to run from there to an edge',
    clash: tooFarForAnEdge,
  },
  {
    between: ['damage.edgesReached', 'damage.diameterMm'],
    why: 'a ring of this size so close to an edge crosses it',
    clash: (sheet) => {
      const { damage } = sheet;
      const edge = nearestEdgeMm(sheet);
      return damage.type === 'bullseye' && damage.edgesReached === 0 && isNumber(damage.diameterMm)
        ? over(damage.diameterMm / 2, edge)
        : false;
    },
  },
];

export const SITE_CONFLICTS: readonly ConflictRow[] = [
  ...PANE_CONFLICTS,
  ...PLACE_CONFLICTS,
  {
    between: ['vehicle.class', 'vehicle.grossMassKg'],
    why: 'no vehicle of this class is that heavy',
    clash: ({ vehicle }) =>
      isOneOf(vehicle.class, Object.keys(HEAVIEST_KG)) &&
      over(vehicle.grossMassKg, HEAVIEST_KG[vehicle.class] ?? 'unknown'),
  },
  {
    between: ['damage.ageDays', 'vehicle.beforeFirstSale'],
    why: 'no vehicle waits that long for its first sale',
    clash: ({ damage, vehicle }) =>
      vehicle.beforeFirstSale === true && over(damage.ageDays, LONGEST_UNSOLD_DAYS),
  },
  {
    between: ['lookedOn', 'today'],
    why: 'the damage cannot have been inspected on a future day',
    // Dates as YYYY-MM-DD sort as text.
    clash: ({ lookedOn }, today) => lookedOn > today,
  },
];

function onOtherHalf({ widthMm, driverSide }: IntakeSheet['pane'], centreMm: number | 'unknown') {
  if (!isNumber(widthMm)) return false;
  const middleMm = widthMm / 2;
  return (
    (driverSide === 'left' && over(centreMm, middleMm)) ||
    (driverSide === 'right' && over(middleMm, centreMm))
  );
}

/** From the stated position to the nearest edge; unknown while any of the four is. */
function nearestEdgeMm({ pane, place }: IntakeSheet): number | 'unknown' {
  const right = sum(pane.widthMm, negative(place.fromLeftMm));
  const bottom = sum(pane.heightMm, negative(place.fromTopMm));
  const distances = [place.fromLeftMm, place.fromTopMm, right, bottom];
  return distances.every(isNumber) ? Math.min(...distances) : 'unknown';
}

const negative = (value: number | 'unknown') => (isNumber(value) ? -value : value);

function tooFarForAnEdge(sheet: IntakeSheet): boolean {
  const { diameterMm, longestLegMm, edgesReached } = sheet.damage;
  if (!isNumber(diameterMm) || !isNumber(longestLegMm)) return false;
  const reachMm = Math.max(diameterMm, longestLegMm) + WIDEST_TRIM_MM;
  return over(edgesReached, 0) && over(nearestEdgeMm(sheet), reachMm);
}
