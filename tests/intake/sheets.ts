/** Hand-made intake sheets for the tests of rules: one that nothing speaks against, and changes. */

import { checkSettings } from '../../src/core/settings.ts';
import { type IntakeSheet, intakeSheetSchema } from '../../src/intake/sheet/intake-sheet.ts';

/** Paths in the sheet to new answers: `{ 'damage.pitMm': 6 }`. */
export type Changes = Readonly<Record<string, unknown>>;

/** A bullseye of 12 mm far from the driver, on a wide pane; middles of wheel and seat differ. */
const CLEAN = {
  schema: 'meniscus/intake@1',
  reference: 'demo',
  lookedOn: '2026-11-20',
  ruleSets: [],
  vehicle: {
    class: 'car',
    grossMassKg: 1900,
    seats: 5,
    commercialUse: false,
    beforeFirstSale: false,
  },
  pane: {
    widthMm: 2400,
    heightMm: 1200,
    driverSide: 'left',
    wheelCentreMm: 600,
    seatCentreMm: 680,
    wheelTopMm: 250,
    sweep: { leftMm: 120, rightMm: 700, topMm: 100, bottomMm: 60 },
    seatLineMm: 500,
    mirror: { leftMm: 1100, rightMm: 1100, topMm: 60, bottomMm: 1000 },
    dividedAtMm: null,
  },
  damage: {
    type: 'bullseye',
    diameterMm: 12,
    bodyMm: 10,
    pitMm: 3,
    legs: 0,
    longestLegMm: 5,
    depthMm: 1.5,
    edgesReached: 0,
    cracksMeet: false,
    impactPoint: true,
    ageDays: 3,
    moisture: 'dry',
    contamination: 'none',
    repairedBefore: false,
    innerPlyTouched: false,
    interlayerTouched: false,
  },
  place: {
    fromLeftMm: 2100,
    fromTopMm: 600,
    otherDamageMm: null,
    earlierRepairMm: null,
    repairsOnPane: 0,
    cameraField: false,
    heatedField: false,
    headUpDisplay: false,
    antenna: false,
  },
};

export function sheetWith(changes: Changes = {}): IntakeSheet {
  const sheet = structuredClone(CLEAN) as Record<string, unknown>;
  for (const [path, answer] of Object.entries(changes)) {
    const [part, field] = path.split('.');
    const section = sheet[part ?? ''] as Record<string, unknown>;
    if (!(field !== undefined && field in section)) throw new Error(`no such answer: ${path}`);
    section[field] = answer;
  }
  const checked = checkSettings(intakeSheetSchema, sheet, 'sheet');
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  return checked.value;
}

/** Every answer that may be "unknown", by its path. */
export const ANSWER_PATHS: readonly string[] = (
  ['vehicle', 'pane', 'damage', 'place'] as const
).flatMap((part) => Object.keys(CLEAN[part]).map((field) => `${part}.${field}`));
