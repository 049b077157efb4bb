/** A hand-made intake sheet without reservations; each test changes the answers under test. */
import { type IntakeSheet, intakeSheetSchema } from '../../src/intake/sheet/intake-sheet.ts';

type Change = {
  readonly [Part in 'damage' | 'place' | 'pane' | 'vehicle' | 'conditions']?: Partial<
    IntakeSheet[Part]
  >;
};

export const sheetOf = (change: Change = {}, rest: Partial<IntakeSheet> = {}): IntakeSheet =>
  intakeSheetSchema.parse({
    schema: 'meniscus/intake@1',
    reference: 'sheet-1',
    lookedOn: '2000-01-01',
    ruleSets: ['de-1986'],
    vehicle: { class: 'car', grossMassKg: 1800, beforeFirstSale: false, ...change.vehicle },
    pane: {
      widthMm: 1400,
      heightMm: 800,
      driverSide: 'left',
      wheelCentreMm: 400,
      seatCentreMm: 400,
      wheelTopMm: 150,
      sweep: { leftMm: 100, rightMm: 150, topMm: 120, bottomMm: 60 },
      ...change.pane,
    },
    damage: {
      type: 'star-break',
      diameterMm: 22,
      bodyMm: 'unknown',
      pitMm: 2,
      legs: 5,
      longestLegMm: 10,
      depthMm: 1.5,
      edgesReached: 0,
      cracksMeet: false,
      impactPoint: true,
      ageDays: 2,
      moisture: 'dry',
      contamination: 'none',
      repairedBefore: false,
      innerPlyTouched: false,
      interlayerTouched: false,
      ...change.damage,
    },
    place: {
      fromLeftMm: 900,
      fromTopMm: 400,
      otherDamageMm: null,
      earlierRepairMm: null,
      repairsOnPane: 0,
      cameraField: false,
      heatedField: false,
      headUpDisplay: false,
      antenna: false,
      ...change.place,
    },
    conditions: { glassC: 23, airC: 22, humidityPercent: 45, airKPa: 101.3, ...change.conditions },
    ...rest,
  });
