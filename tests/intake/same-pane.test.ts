import { describe, expect, test } from 'vitest';
import intake from '../../src/app/defaults/intake.json' with { type: 'json' };
import { sheetBeside } from '../../src/app/prepare/assessment-of.ts';
import { valueAt } from '../../src/core/settings.ts';
import { scratchFolder, writeJson } from '../cli/process.ts';

const folder = scratchFolder();
/** Pit at 905 and 310 mm; its legs reach 11 mm. */
const first = writeJson(folder, 'first.json', { ...intake, reference: 'job-7a' });
const { vehicle: _, pane: __, ...rest } = intake;
/** 300 mm to the right and 400 mm below: 500 mm apart, centre to centre. */
const SECOND = {
  ...rest,
  reference: 'job-7b',
  place: { ...intake.place, fromLeftMm: 1205, fromTopMm: 710, otherDamageMm: 'unknown' },
};

const beside = (sheet: object, repaired = false) =>
  sheetBeside(sheet, 'second.json', [{ file: first, repaired }], '2000-01-02');
const problemsOf = (sheet: object) => {
  const checked = beside(sheet);
  return checked.ok ? [] : checked.problems.map(({ path, accepted }) => [path, accepted]);
};
const placeOf = (sheet: object, repaired = false) => {
  const checked = beside(sheet, repaired);
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  return checked.value;
};

describe('a second damage on a pane', () => {
  test('takes vehicle and pane from the sheet of the first', () => {
    expect(valueAt(placeOf(SECOND), ['pane'])).toMatchObject(intake.pane);
    expect(valueAt(placeOf(SECOND), ['vehicle'])).toMatchObject(intake.vehicle);
  });

  test('names the first, and those that the first names; never itself', () => {
    expect(valueAt(placeOf(SECOND), ['samePane'])).toEqual(['job-7a']);
    const third = writeJson(folder, 'third.json', {
      ...intake,
      reference: 'job-7c',
      samePane: ['job-7a', 'job-7b'],
    });
    const checked = sheetBeside(
      SECOND,
      'second.json',
      [{ file: third, repaired: false }],
      '2000-01-02',
    );
    expect(checked.ok && valueAt(checked.value, ['samePane'])).toEqual(['job-7c', 'job-7a']);
  });

  test('is as far from the first as their positions and sizes say, rim to rim', () => {
    // sqrt(300² + 400²) less 11 mm at either end.
    expect(valueAt(placeOf(SECOND), ['place', 'otherDamageMm'])).toBe(478);
  });

  test('is measured from an earlier repair where the first is repaired', () => {
    const place = {
      ...SECOND.place,
      otherDamageMm: null,
      earlierRepairMm: 'unknown',
      repairsOnPane: 1,
    };
    const found = placeOf({ ...SECOND, place }, true);
    expect(valueAt(found, ['place', 'earlierRepairMm'])).toBe(478);
    expect(valueAt(found, ['place', 'otherDamageMm'])).toBeNull();
  });

  test('may have a third nearer, but none of the two farther than they are', () => {
    const stated = (otherDamageMm: number | null) => ({
      ...SECOND,
      place: { ...SECOND.place, otherDamageMm },
    });
    expect(valueAt(placeOf(stated(90)), ['place', 'otherDamageMm'])).toBe(90);
    for (const wrong of [600, null]) {
      expect(problemsOf(stated(wrong))).toEqual([
        ['place.otherDamageMm', expect.stringContaining('at most 478 mm')],
      ]);
    }
  });

  test('has a reference of its own, and the same pane', () => {
    expect(problemsOf({ ...SECOND, reference: 'job-7a' })[0]?.[0]).toBe('reference');
    const other = { ...SECOND, pane: { ...intake.pane, widthMm: 1300 } };
    expect(problemsOf(other)).toEqual([['pane', expect.stringContaining('first.json')]]);
  });

  test('stays at an unknown distance where a position is not known', () => {
    const place = { ...SECOND.place, fromTopMm: 'unknown' };
    expect(valueAt(placeOf({ ...SECOND, place }), ['place', 'otherDamageMm'])).toBe('unknown');
  });
});
