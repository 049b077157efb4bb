import { expect, test } from 'vitest';
import builtIn from '../../src/app/defaults/profile.json' with { type: 'json' };
import apartFile from '../../src/app/defaults/star-apart.json' with { type: 'json' };
import { profileOverLimits } from '../../src/control/unit-settings.ts';
import { checkSettings, problemLine } from '../../src/core/settings.ts';
import { profileSchema } from '../../src/procedure/profile.ts';
import { DEFAULT_UNIT } from '../configs.ts';

const PIT = { targetAtResinMJPerCm2: 1500, leastS: 60, longestS: 300 };
const check = (change: object) => checkSettings(profileSchema, { ...builtIn, ...change }, 'p.json');

function problems(change: object): readonly string[] {
  const checked = check(change);
  return checked.ok ? [] : checked.problems.map(problemLine);
}

test('a profile that says nothing of it cures fill and pit together', () => {
  expect(check({})).toMatchObject({ ok: true, value: { curing: 'together', pitCure: null } });
});

test('apart brings the pit’s own dose and times', () => {
  expect(check({ curing: 'apart', pitCure: PIT })).toMatchObject({
    ok: true,
    value: { curing: 'apart', pitCure: { targetAtResinJPerM2: 15_000, leastS: 60, longestS: 300 } },
  });
});

test('a pit’s cure in a profile that cures together is kept out of use', () => {
  expect(check({ pitCure: PIT })).toMatchObject({ ok: true, value: { pitCure: null } });
});

test('apart without a pit’s cure is refused with what is missing', () => {
  expect(problems({ curing: 'apart' })).toEqual([
    'p.json: pitCure is missing; accepted: targetAtResinMJPerCm2, leastS and longestS, because curing is apart',
  ]);
});

test('nonsense is refused with its path', () => {
  expect(problems({ curing: 'later' })).toEqual([
    'p.json: curing is "later"; accepted: one of together, apart',
  ]);
  expect(problems({ curing: 'apart', pitCure: { ...PIT, leastS: 301 } })).toEqual([
    'p.json: pitCure.leastS is 301; accepted: at most pitCure.longestS (300)',
  ]);
  expect(problems({ curing: 'apart', pitCure: { ...PIT, targetAtResinMJPerCm2: 1 } })).toEqual([
    'p.json: pitCure.targetAtResinMJPerCm2 is 1; accepted: a number from 100 to 50000 mJ/cm2',
  ]);
});

test('the star break’s profile with its pit apart is sound and fits the demo unit', () => {
  const checked = checkSettings(profileSchema, apartFile, 'star-apart.json');
  if (!checked.ok) throw new Error(checked.problems.map(problemLine).join('\n'));
  expect(checked.value.curing).toBe('apart');
  expect(profileOverLimits(checked.value, DEFAULT_UNIT, 'star-apart.json')).toEqual([]);
});

test('a pit’s cure longer than the unit lets its lamp burn is refused', () => {
  const checked = check({ curing: 'apart', pitCure: { ...PIT, longestS: 901 } });
  if (!checked.ok) throw new Error('a sound profile');
  expect(profileOverLimits(checked.value, DEFAULT_UNIT, 'p.json').map(problemLine)).toEqual([
    "p.json: pitCure.longestS is 901; accepted: at most 900 s, the unit's limit",
  ]);
});
