import { describe, expect, test } from 'vitest';
import { assess } from '../../../src/intake/rules/assess.ts';
import type { CheckedRule } from '../../../src/intake/rules/reason.ts';
import type { RuleSet } from '../../../src/intake/rules/rule-set.ts';
import { loadBuiltInRuleSets } from '../../../src/intake/rules/rule-sets.ts';
import { TECHNICAL_EXCLUSIONS } from '../../../src/intake/rules/technical-exclusions.ts';
import type { IntakeSheet } from '../../../src/intake/sheet/intake-sheet.ts';
import { type Changes, sheetWith } from '../sheets.ts';
import { casesOf, placedIn, vehicleFor } from './limit-cases.ts';

const loaded = loadBuiltInRuleSets();
const SETS: readonly RuleSet[] = loaded.ok ? loaded.value : [];

const byId = (rules: readonly CheckedRule[], id: string) => rules.find((rule) => rule.id === id)!;
const brokenIn = (sheet: IntakeSheet, set: RuleSet) =>
  assess(sheet, [set]).checked.filter(({ outcome }) => outcome === 'broken');
const pathsOf = (changes: Changes) => Object.keys(changes);

test('thirty-four rule sets come with the unit', () => {
  expect(SETS).toHaveLength(34);
});

describe.each(SETS)('$id', (set) => {
  const vehicle = vehicleFor(set);
  const inZones = set.rules.flatMap((rule) => rule.in.map((zone) => ({ id: rule.id, zone, rule })));

  test.each(inZones)(
    '$id in $zone holds up to its limit, and is broken beyond',
    ({ rule, zone }) => {
      const { holds, broken } = casesOf(rule);
      for (const changes of holds) {
        const { checked } = assess(placedIn(set, zone, { ...vehicle, ...changes }), [set]);
        expect(byId(checked, rule.id).outcome).toBe('holds');
      }
      expect(broken.length).toBeGreaterThan(0);
      for (const changes of broken) {
        const assessment = assess(placedIn(set, zone, { ...vehicle, ...changes }), [set]);
        const found = byId(assessment.checked, rule.id);
        expect(found).toMatchObject({ outcome: 'broken', means: rule.then, open: [] });
        expect(assessment.reasons).toContain(found);
        const strictest = assessment.checked.some(
          ({ outcome, means }) => outcome === 'broken' && means === 'not-allowed',
        );
        expect(assessment.answer).toBe(strictest ? 'not-allowed-here' : 'needs-a-person');
      }
    },
  );

  test.each(inZones)(
    'going over the limit of $id in $zone breaks nothing about other things',
    ({ rule, zone }) => {
      const { holds, broken } = casesOf(rule);
      const inside = holds[0];
      if (inside === undefined) return;
      const before = brokenIn(placedIn(set, zone, { ...vehicle, ...inside }), set).map(
        ({ id }) => id,
      );
      const after = brokenIn(placedIn(set, zone, { ...vehicle, ...broken[0] }), set);
      const fresh = after.filter(({ id }) => !before.includes(id));
      expect(fresh.map(({ id }) => id)).toContain(rule.id);
      const changed = pathsOf({ ...broken[0] });
      for (const other of fresh) {
        const theirs = casesOf(set.rules.find(({ id }) => id === other.id)!).broken[0] ?? {};
        expect(pathsOf(theirs).some((path) => changed.includes(path))).toBe(true);
      }
    },
  );

  test.each(inZones)(
    '$id in $zone asks for a person when its answer is unknown',
    ({ rule, zone }) => {
      for (const { changes, path } of casesOf(rule).unknown) {
        const known = placedIn(set, zone, { ...vehicle, ...casesOf(rule).broken[0] });
        const there = {
          'place.fromLeftMm': known.place.fromLeftMm,
          'place.fromTopMm': known.place.fromTopMm,
        };
        const assessment = assess(sheetWith({ ...vehicle, ...there, ...changes }), [set]);
        expect(byId(assessment.checked, rule.id)).toMatchObject({ outcome: 'unknown' });
        expect(byId(assessment.checked, rule.id).open).toContain(path);
        expect(assessment.answer).not.toBe('allowed');
      }
    },
  );
});

describe('technical exclusions', () => {
  test.each(TECHNICAL_EXCLUSIONS)('$id: both sides and unknown', (row) => {
    const { holds, broken, unknown } = casesOf(row);
    const answer = row.means;
    for (const changes of holds) {
      const { technical } = assess(sheetWith(changes), []);
      expect(byId(technical.checked, row.id).outcome).toBe('holds');
    }
    for (const changes of broken) {
      const { technical } = assess(sheetWith(changes), []);
      expect(byId(technical.checked, row.id).outcome).toBe('broken');
      expect(technical.answer).toBe(answer);
    }
    for (const { changes, path } of unknown) {
      const { technical } = assess(sheetWith(changes), []);
      expect(byId(technical.checked, row.id)).toMatchObject({ outcome: 'unknown' });
      expect(byId(technical.checked, row.id).open).toContain(path);
      expect(technical.answer).not.toBe('can');
    }
  });
});
