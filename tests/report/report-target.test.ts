import { expect, test } from 'vitest';
import { countedDosesOf } from '../../src/report/report-dose.ts';
import type { MeasuredRow } from '../../src/report/timeline.ts';

const PROFILE = { cure: { targetMJPerCm2: 6000 } };

/** A cure of 70 kJ/m2 in a journal that states these targets. */
function resultOf(stated: readonly number[]) {
  const rows: readonly MeasuredRow[] = [
    ...stated.map((value) => ({ atS: 1, name: 'targetJPerM2' as const, portion: null, value })),
    { atS: 900, name: 'doseJPerM2', portion: null, value: 70_000 },
  ];
  return countedDosesOf([], rows, { profile: PROFILE, unit: {} }, true)[0];
}

test('the dose is judged by the job’s target, and the record says what set it', () => {
  expect(resultOf([60_000])).toMatchObject({
    verdict: 'met',
    targetJPerM2: 60_000,
    targetSetBy: 'profile',
  });
  expect(resultOf([70_001])).toMatchObject({
    verdict: 'not met',
    targetJPerM2: 70_001,
    targetSetBy: 'depth of the break',
  });
});

test('an older journal is judged by the profile, and nothing is said of what set its target', () => {
  expect(resultOf([])).toMatchObject({
    verdict: 'met',
    targetJPerM2: 60_000,
    targetSetBy: null,
  });
});
