import { describe, expect, test } from 'vitest';
import {
  CONFLICT_ROWS,
  conflictProblems,
  conflictsOf,
} from '../../../src/intake/sheet/intake-conflicts.ts';
import { intakeSheetSchema } from '../../../src/intake/sheet/intake-sheet.ts';
import { sheetOf } from '../sheet.ts';

const TODAY = '2000-01-02';
type Change = Parameters<typeof sheetOf>[0];

interface Case {
  readonly between: string;
  /** Answers that cannot both be true, and the nearest that can. */
  readonly clash: Change;
  readonly fits: Change;
}

const BULLSEYE = { type: 'bullseye', legs: 0, longestLegMm: 0 } as const;
const COMBINATION = {
  type: 'combination-break',
  bodyMm: 12,
  longestLegMm: 9,
  diameterMm: 26,
} as const;
const PIT = { type: 'surface-pit', legs: 0, longestLegMm: 0, diameterMm: 2, pitMm: 2 } as const;
const CRACK = {
  type: 'crack',
  legs: 1,
  longestLegMm: 60,
  diameterMm: 60,
  pitMm: 0,
} as const;
const CASES: readonly Case[] = [
  {
    between: 'damage.pitMm damage.diameterMm',
    clash: { damage: { ...BULLSEYE, pitMm: 22.1 } },
    fits: { damage: { ...BULLSEYE, pitMm: 22 } },
  },
  {
    between: 'damage.bodyMm damage.diameterMm',
    clash: { damage: { ...COMBINATION, bodyMm: 26.5 } },
    fits: { damage: { ...COMBINATION, bodyMm: 26 } },
  },
  {
    between: 'damage.pitMm damage.bodyMm',
    clash: { damage: { ...COMBINATION, pitMm: 12.5 } },
    fits: { damage: { ...COMBINATION, pitMm: 12 } },
  },
  {
    between: 'damage.type damage.legs',
    clash: { damage: { ...BULLSEYE, legs: 1 } },
    fits: { damage: BULLSEYE },
  },
  {
    between: 'damage.type damage.legs',
    clash: { damage: { legs: 0, longestLegMm: 'unknown' } },
    fits: { damage: { legs: 1, longestLegMm: 'unknown' } },
  },
  {
    between: 'damage.type damage.longestLegMm',
    clash: { damage: { ...BULLSEYE, longestLegMm: 4 } },
    fits: { damage: BULLSEYE },
  },
  {
    between: 'damage.type damage.longestLegMm',
    clash: { damage: { ...CRACK, diameterMm: 'unknown', longestLegMm: 0 } },
    fits: { damage: { ...CRACK, diameterMm: 'unknown', longestLegMm: 1 } },
  },
  {
    between: 'damage.legs damage.longestLegMm',
    clash: { damage: { ...COMBINATION, diameterMm: 12, longestLegMm: 0 } },
    fits: { damage: { ...COMBINATION, diameterMm: 12, longestLegMm: 1 } },
  },
  {
    between: 'damage.legs damage.longestLegMm',
    clash: { damage: { ...COMBINATION, legs: 0 } },
    fits: { damage: { ...COMBINATION, diameterMm: 12, legs: 0, longestLegMm: 0 } },
  },
  {
    between: 'damage.longestLegMm damage.diameterMm',
    clash: { damage: { longestLegMm: 22.5 } },
    fits: { damage: { longestLegMm: 22 } },
  },
  {
    between: 'damage.diameterMm damage.longestLegMm',
    clash: { damage: { diameterMm: 22.5 } },
    fits: { damage: { diameterMm: 22 } },
  },
  {
    between: 'damage.diameterMm damage.longestLegMm',
    clash: { damage: { ...COMBINATION, diameterMm: 30.5 } },
    fits: { damage: { ...COMBINATION, diameterMm: 30 } },
  },
  {
    between: 'damage.diameterMm damage.longestLegMm',
    clash: { damage: { ...CRACK, diameterMm: 61 } },
    fits: { damage: CRACK },
  },
  {
    between: 'damage.type damage.diameterMm',
    clash: { damage: { ...PIT, diameterMm: 2.5 } },
    fits: { damage: PIT },
  },
  {
    between: 'damage.type damage.interlayerTouched',
    clash: { damage: { ...PIT, interlayerTouched: true } },
    fits: { damage: { ...BULLSEYE, interlayerTouched: true } },
  },
  {
    between: 'damage.type damage.innerPlyTouched',
    clash: { damage: { ...PIT, innerPlyTouched: true } },
    fits: { damage: { ...BULLSEYE, innerPlyTouched: true } },
  },
  {
    between: 'damage.depthMm damage.interlayerTouched',
    clash: { damage: { depthMm: 3.1 } },
    fits: { damage: { depthMm: 3 } },
  },
  {
    between: 'damage.depthMm damage.innerPlyTouched',
    clash: { damage: { depthMm: 4.7, interlayerTouched: true } },
    fits: { damage: { depthMm: 4.6, interlayerTouched: true } },
  },
  {
    between: 'damage.type damage.cracksMeet',
    clash: { damage: { ...BULLSEYE, cracksMeet: true } },
    fits: { damage: { cracksMeet: true } },
  },
  {
    between: 'damage.type damage.impactPoint',
    clash: { damage: { impactPoint: false, pitMm: 'unknown' } },
    fits: { damage: { ...CRACK, impactPoint: false } },
  },
  {
    between: 'damage.pitMm damage.impactPoint',
    clash: { damage: { ...CRACK, pitMm: 1, impactPoint: false } },
    fits: { damage: { ...CRACK, pitMm: 1 } },
  },
  {
    between: 'pane.sweep pane.widthMm',
    clash: { pane: { sweep: { leftMm: 700, rightMm: 700, topMm: 0, bottomMm: 0 } } },
    fits: { pane: { sweep: { leftMm: 700, rightMm: 699, topMm: 0, bottomMm: 0 } } },
  },
  {
    between: 'pane.sweep pane.heightMm',
    clash: { pane: { sweep: { leftMm: 0, rightMm: 0, topMm: 300, bottomMm: 500 } } },
    fits: { pane: { sweep: { leftMm: 0, rightMm: 0, topMm: 300, bottomMm: 499 } } },
  },
  {
    between: 'pane.wheelCentreMm pane.widthMm',
    clash: { pane: { driverSide: 'unknown', wheelCentreMm: 1401 } },
    fits: { pane: { driverSide: 'unknown', wheelCentreMm: 1400 } },
  },
  {
    between: 'pane.wheelCentreMm pane.driverSide',
    clash: { pane: { wheelCentreMm: 701 } },
    fits: { pane: { wheelCentreMm: 700 } },
  },
  {
    between: 'pane.wheelCentreMm pane.driverSide',
    clash: { pane: { driverSide: 'right', wheelCentreMm: 699, seatCentreMm: 'unknown' } },
    fits: { pane: { driverSide: 'right', wheelCentreMm: 700, seatCentreMm: 'unknown' } },
  },
  {
    between: 'pane.seatCentreMm pane.widthMm',
    clash: { pane: { driverSide: 'unknown', seatCentreMm: 1401 } },
    fits: { pane: { driverSide: 'unknown', seatCentreMm: 1400 } },
  },
  {
    between: 'pane.seatCentreMm pane.driverSide',
    clash: { pane: { seatCentreMm: 701 } },
    fits: { pane: { seatCentreMm: 700 } },
  },
  {
    between: 'pane.wheelTopMm pane.heightMm',
    clash: { pane: { wheelTopMm: 801 } },
    fits: { pane: { wheelTopMm: 800 } },
  },
  {
    between: 'place.fromLeftMm pane.widthMm',
    clash: { place: { fromLeftMm: 1401 } },
    fits: { place: { fromLeftMm: 1400 } },
  },
  {
    between: 'place.fromTopMm pane.heightMm',
    clash: { place: { fromTopMm: 801 } },
    fits: { place: { fromTopMm: 800 } },
  },
  {
    between: 'place.otherDamageMm pane.widthMm',
    clash: { place: { otherDamageMm: 1613 } },
    fits: { place: { otherDamageMm: 1612 } },
  },
  {
    between: 'place.earlierRepairMm pane.widthMm',
    clash: { place: { repairsOnPane: 1, earlierRepairMm: 1613 } },
    fits: { place: { repairsOnPane: 1, earlierRepairMm: 1612 } },
  },
  {
    between: 'place.repairsOnPane damage.repairedBefore',
    clash: { damage: { repairedBefore: true } },
    fits: { damage: { repairedBefore: true }, place: { repairsOnPane: 1 } },
  },
  {
    between: 'place.repairsOnPane place.earlierRepairMm',
    clash: { place: { earlierRepairMm: 200 } },
    fits: { place: { repairsOnPane: 1, earlierRepairMm: 200 } },
  },
  {
    between: 'place.repairsOnPane place.earlierRepairMm',
    clash: { place: { repairsOnPane: 1 } },
    fits: { damage: { repairedBefore: true }, place: { repairsOnPane: 1 } },
  },
  {
    between: 'damage.edgesReached place.fromLeftMm',
    clash: { damage: { edgesReached: 1 }, place: { fromTopMm: 73 } },
    fits: { damage: { edgesReached: 1 }, place: { fromTopMm: 72 } },
  },
  {
    between: 'damage.edgesReached damage.diameterMm',
    clash: { damage: BULLSEYE, place: { fromTopMm: 10 } },
    fits: { damage: BULLSEYE, place: { fromTopMm: 11 } },
  },
  {
    between: 'vehicle.class vehicle.grossMassKg',
    clash: { vehicle: { class: 'motorcycle', grossMassKg: 1501 } },
    fits: { vehicle: { class: 'motorcycle', grossMassKg: 1500 } },
  },
  {
    between: 'damage.ageDays vehicle.beforeFirstSale',
    clash: { damage: { ageDays: 3651 }, vehicle: { beforeFirstSale: true } },
    fits: { damage: { ageDays: 3650 }, vehicle: { beforeFirstSale: true } },
  },
];

const pairsOf = (sheet: ReturnType<typeof sheetOf>): readonly string[] =>
  conflictsOf(sheet, TODAY).map(({ paths }) => paths.join(' '));

describe('answers that cannot both be true', () => {
  test.each(CASES)('$between clash, alone and on this side only', ({ between, clash, fits }) => {
    expect(pairsOf(sheetOf(clash))).toEqual([between]);
    expect(pairsOf(sheetOf(fits))).toEqual([]);
  });

  test('every row of the tables has a case here', () => {
    const rows = CONFLICT_ROWS.filter(
      ({ clash }) => !CASES.some((one) => clash(sheetOf(one.clash), TODAY)),
    );
    expect(rows.map(({ why }) => why)).toEqual([
      'the damage cannot have been inspected on a future day',
    ]);
  });

  test('a look tomorrow is refused, one today is not', () => {
    const sheet = sheetOf({}, { lookedOn: '2000-01-03' });
    expect(pairsOf(sheet)).toEqual(['lookedOn today']);
    expect(conflictsOf(sheet, '2000-01-03')).toEqual([]);
  });

  test('an answer that nobody knows contradicts nothing', () => {
    for (const { between, clash } of CASES) {
      const sheet = sheetOf(clash);
      for (const path of between.split(' ')) {
        const [part = '', field = ''] = path.split('.');
        const section = sheet[part as 'damage'] as Readonly<Record<string, unknown>>;
        const opened = { ...sheet, [part]: { ...section, [field]: 'unknown' } };
        expect(
          pairsOf(intakeSheetSchema.parse(opened)),
          `${between} without ${path}`,
        ).not.toContain(between);
      }
    }
  });

  test('a file is told both paths, both values and why', () => {
    const [problem] = conflictProblems(sheetOf({ place: { fromLeftMm: 1500 } }), TODAY, 'a.json');
    expect(problem).toEqual({
      file: 'a.json',
      path: 'place.fromLeftMm',
      value: '1500',
      accepted:
        'what fits pane.widthMm (1400): the damage would lie beyond the right edge of the pane',
    });
  });
});
