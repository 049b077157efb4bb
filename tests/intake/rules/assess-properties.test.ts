import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Assessment, assess } from '../../../src/intake/rules/assess.ts';
import type { RuleSet } from '../../../src/intake/rules/rule-set.ts';
import { loadBuiltInRuleSets } from '../../../src/intake/rules/rule-sets.ts';
import {
  INTAKE_DAMAGE_TYPES,
  type IntakeSheet,
  VEHICLE_CLASSES,
} from '../../../src/intake/sheet/intake-sheet.ts';
import { ANSWER_PATHS, sheetWith } from '../sheets.ts';
import { shopSet } from './rule-sheets.ts';

const loaded = loadBuiltInRuleSets();
const SETS: readonly RuleSet[] = loaded.ok ? loaded.value : [];

const mm = (max: number) => fc.integer({ min: 0, max: max * 2 }).map((half) => half / 2);
const orNone = (arb: fc.Arbitrary<number>) => fc.option(arb, { nil: null });
const yesNo = fc.boolean();
/** Mostly answers that nothing speaks against, so that "allowed" is met often enough to be lost. */
const mostly = <T>(usual: T, other: fc.Arbitrary<T>) =>
  fc.oneof({ weight: 6, arbitrary: fc.constant(usual) }, { weight: 1, arbitrary: other });

const answers: Readonly<Record<string, fc.Arbitrary<unknown>>> = {
  'vehicle.class': mostly<string>('car', fc.constantFrom(...VEHICLE_CLASSES)),
  'vehicle.grossMassKg': fc.integer({ min: 500, max: 8000 }),
  'vehicle.beforeFirstSale': mostly(false, yesNo),
  'pane.widthMm': fc.integer({ min: 1200, max: 2400 }),
  'pane.heightMm': fc.integer({ min: 600, max: 1200 }),
  'pane.driverSide': fc.constantFrom('left', 'right'),
  'pane.wheelCentreMm': mm(1200),
  'pane.seatCentreMm': mm(1200),
  'pane.wheelTopMm': mm(300),
  'pane.sweep': fc.record({ leftMm: mm(200), rightMm: mm(500), topMm: mm(200), bottomMm: mm(100) }),
  'damage.type': fc.constantFrom(...INTAKE_DAMAGE_TYPES),
  'damage.diameterMm': mm(40).map((half) => half + 0.5),
  'damage.bodyMm': mm(60),
  'damage.pitMm': mm(10),
  'damage.longestLegMm': mm(60),
  'damage.edgesReached': mostly(0, fc.integer({ min: 0, max: 3 })),
  'damage.cracksMeet': mostly(false, yesNo),
  'damage.impactPoint': mostly(true, yesNo),
  'damage.moisture': mostly<string>('dry', fc.constantFrom('damp', 'wet')),
  'damage.contamination': mostly<string>('none', fc.constantFrom('can-be-removed', 'stays')),
  'damage.repairedBefore': mostly(false, yesNo),
  'damage.innerPlyTouched': mostly(false, yesNo),
  'damage.interlayerTouched': mostly(false, yesNo),
  'place.fromLeftMm': mm(1200),
  'place.fromTopMm': mm(600),
  'place.otherDamageMm': orNone(mm(200)),
  'place.earlierRepairMm': orNone(mm(200)),
  'place.repairsOnPane': fc.integer({ min: 0, max: 9 }),
  'place.cameraField': mostly(false, yesNo),
  'place.headUpDisplay': mostly(false, yesNo),
};
const sheets = fc.record(answers).map(sheetWith);
const someSets = fc.subarray([...SETS], { minLength: 0, maxLength: 3 });

function withUnknown(sheet: IntakeSheet, path: string): IntakeSheet {
  const [part = '', field = ''] = path.split('.');
  const section = sheet[part as 'damage'];
  return { ...sheet, [part]: { ...section, [field]: 'unknown' } };
}

const LEGAL = ['allowed', 'needs-a-person', 'not-allowed-here'] as const;
const TECHNICAL = ['can', 'needs-a-person', 'cannot'] as const;
const strictness = ({ answer, technical }: Assessment) => ({
  legal: LEGAL.indexOf(answer),
  technical: TECHNICAL.indexOf(technical.answer),
});

describe('whatever the sheet says', () => {
  test('one answer less never allows what was not allowed before', () => {
    let allowed = 0;
    fc.assert(
      fc.property(sheets, someSets, fc.constantFrom(...ANSWER_PATHS), (sheet, sets, path) => {
        const before = strictness(assess(sheet, sets));
        const after = strictness(assess(withUnknown(sheet, path), sets));
        if (before.legal === 0) allowed += 1;
        if (before.legal > 0) expect(after.legal).toBeGreaterThan(0);
        if (before.technical > 0) expect(after.technical).toBeGreaterThan(0);
      }),
      { numRuns: 1000, seed: 20261125 },
    );
    expect(allowed).toBeGreaterThan(25);
  });

  test('what is allowed with an answer unknown is allowed for every answer', () => {
    const met = new Map<string, number>();
    fc.assert(
      fc.property(sheets, fc.constantFrom(...SETS), (sheet, set) => {
        for (const path of ANSWER_PATHS) {
          const open = assess(withUnknown(sheet, path), [set]).answer;
          met.set(open, (met.get(open) ?? 0) + 1);
          if (open === 'allowed') expect(assess(sheet, [set]).answer).toBe('allowed');
          if (open === 'not-allowed-here') {
            expect(assess(sheet, [set]).answer).toBe('not-allowed-here');
          }
        }
      }),
      { numRuns: 80, seed: 20261125 },
    );
    expect(met.get('allowed') ?? 0).toBeGreaterThan(25);
    expect(met.get('not-allowed-here') ?? 0).toBeGreaterThan(25);
  });

  test('another set or a stricter one never loosens the answer', () => {
    const limitMm = fc.integer({ min: 1, max: 100 });
    fc.assert(
      fc.property(sheets, someSets, limitMm, limitMm, (sheet, sets, aMm, bMm) => {
        const [strict, lax] = [Math.min(aMm, bMm), Math.max(aMm, bMm)];
        const alone = strictness(assess(sheet, sets)).legal;
        const withLax = strictness(assess(sheet, [...sets, shopSet([lax])])).legal;
        const withStrict = strictness(assess(sheet, [...sets, shopSet([strict])])).legal;
        expect(withLax).toBeGreaterThanOrEqual(alone);
        expect(withStrict).toBeGreaterThanOrEqual(withLax);
      }),
      { numRuns: 300, seed: 20261125 },
    );
  });

  test('what is allowed rests on a set about repairing, and neither on memory nor on an old edition', () => {
    let allowed = 0;
    fc.assert(
      fc.property(sheets, fc.subarray([...SETS], { minLength: 1, maxLength: 3 }), (sheet, sets) => {
        const { answer, checked } = assess(sheet, sets);
        if (answer !== 'allowed') return;
        allowed += 1;
        const kept = checked.filter(({ outcome }) => outcome === 'holds');
        expect(kept.some(({ set }) => set?.kind === 'repair')).toBe(true);
        for (const { set, provenance } of kept) {
          expect(provenance).not.toBe('from-memory');
          expect(set?.outOfForce).toBeNull();
        }
      }),
      { numRuns: 1000, seed: 20261126 },
    );
    expect(allowed).toBeGreaterThan(25);
  });

  test('everything that is not clear comes with a reason, and what is clear with none', () => {
    fc.assert(
      fc.property(sheets, someSets, (sheet, sets) => {
        const { answer, reasons, technical } = assess(sheet, sets);
        expect(reasons.length === 0).toBe(answer === 'allowed');
        expect(technical.reasons.length === 0).toBe(technical.answer === 'can');
      }),
      { numRuns: 300, seed: 20261125 },
    );
  });
});
