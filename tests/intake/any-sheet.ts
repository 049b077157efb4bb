/** Intake sheets of any pane and damage, some answers unknown, for properties of the drawing. */
import fc from 'fast-check';
import { INTAKE_DAMAGE_TYPES, type IntakeSheet } from '../../src/intake/sheet/intake-sheet.ts';
import { sheetOf } from './sheet.ts';

const orUnknown = <T>(arbitrary: fc.Arbitrary<T>): fc.Arbitrary<T | 'unknown'> =>
  fc.oneof({ weight: 9, arbitrary }, { weight: 1, arbitrary: fc.constant('unknown' as const) });
export const anySheet: fc.Arbitrary<IntakeSheet> = fc
  .record({
    widthMm: fc.integer({ min: 400, max: 2600 }),
    heightMm: fc.integer({ min: 300, max: 1500 }),
    across: fc.double({ min: 0, max: 1, noNaN: true }),
    down: fc.double({ min: 0, max: 1, noNaN: true }),
    wheel: fc.double({ min: 0.15, max: 0.85, noNaN: true }),
    type: orUnknown(fc.constantFrom(...INTAKE_DAMAGE_TYPES)),
    diameterMm: orUnknown(fc.integer({ min: 2, max: 60 })),
    legShare: fc.double({ min: 0.5, max: 1, noNaN: true }),
    crackMm: fc.integer({ min: 5, max: 500 }),
    legs: fc.integer({ min: 1, max: 9 }),
    edgesReached: fc.integer({ min: 0, max: 1 }),
    known: fc.record({ width: fc.boolean(), sweep: fc.boolean() }),
  })
  .map((some) =>
    sheetOf(
      {
        pane: {
          widthMm: some.known.width || some.across < 0.9 ? some.widthMm : 'unknown',
          heightMm: some.heightMm,
          driverSide: some.wheel < 0.5 ? 'left' : 'right',
          wheelCentreMm: Math.round(some.wheel * some.widthMm),
          seatCentreMm: Math.round(some.wheel * some.widthMm) + 4,
          sweep: some.known.sweep
            ? { leftMm: 30, rightMm: 50, topMm: 20, bottomMm: 40 }
            : 'unknown',
        },
        damage: {
          type: some.type,
          diameterMm: some.diameterMm,
          longestLegMm: legOf(some),
          legs: some.legs,
          bodyMm: some.diameterMm === 'unknown' ? 10 : some.diameterMm / 2,
          edgesReached: some.edgesReached,
        },
        place: {
          fromLeftMm: Math.round(some.across * some.widthMm),
          fromTopMm: Math.round(some.down * some.heightMm),
        },
      },
      { reference: 'a reference of forty characters, or so..' },
    ),
  );
function legOf(some: {
  type: string;
  diameterMm: number | 'unknown';
  legShare: number;
  crackMm: number;
}) {
  if (some.type === 'crack') return some.crackMm;
  return some.diameterMm === 'unknown' ? 12 : some.diameterMm * some.legShare;
}
