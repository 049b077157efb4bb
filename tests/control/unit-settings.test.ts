import { describe, expect, test } from 'vitest';
import UNIT from '../../src/app/defaults/unit.json' with { type: 'json' };
import { unitSettingsSchema } from '../../src/control/unit-settings.ts';
import { checkSettings, problemLine } from '../../src/core/settings.ts';

const problems = (unit: unknown): readonly string[] => {
  const checked = checkSettings(unitSettingsSchema, unit, 'unit.json');
  return checked.ok ? [] : checked.problems.map(problemLine);
};
const { uncertainty: stated, ...silent } = UNIT;

describe('the uncertainties of a unit file', () => {
  test('must be stated, every one of them', () => {
    expect(problems(UNIT)).toEqual([]);
    expect(problems(silent)).toEqual(['unit.json: uncertainty is missing; accepted: an object']);
    for (const section of Object.keys(stated) as (keyof typeof stated)[]) {
      for (const field of Object.keys(stated[section])) {
        const less = { ...stated, [section]: { ...stated[section], [field]: undefined } };
        expect(problems({ ...UNIT, uncertainty: less }), field).toHaveLength(1);
      }
    }
  });

  test.each([
    [80, 0],
    [79.9, 1],
    [99.9, 0],
    [100, 1],
  ])('a coverage of %d %% gives %d problems', (coveragePercent, count) => {
    const acceptance = { coveragePercent };
    expect(problems({ ...UNIT, uncertainty: { ...stated, acceptance } })).toHaveLength(count);
  });

  test('of the demo unit come to 3.5 % of a dose at the resin, counted 1.645 times', () => {
    const unit = unitSettingsSchema.parse(UNIT);
    expect(unit.doseUncertaintyTerms.gainRatio).toBeCloseTo(0.0346, 3);
    expect(unit.doseUncertaintyTerms.coverageFactor).toBeCloseTo(1.645, 3);
  });
});
