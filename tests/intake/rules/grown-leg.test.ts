/** How far a leg may grow before a rule ends the repair. */
import { describe, expect, test } from 'vitest';
import { legLimitOf } from '../../../src/intake/rules/grown-leg.ts';
import { type RuleSet, ruleSetSchema } from '../../../src/intake/rules/rule-set.ts';
import { sheetWith } from '../sheets.ts';
import { crack, shopSet } from './rule-sheets.ts';

const star = (diameterMm: number, longestLegMm: number) =>
  sheetWith({
    'damage.type': 'star-break',
    'damage.diameterMm': diameterMm,
    'damage.longestLegMm': longestLegMm,
  });

/** A shop's set with one rule, which is about something else than the width. */
function shopRule(change: object): RuleSet {
  const { rules, ...set } = shopSet([300]);
  return ruleSetSchema.parse({ ...set, rules: [{ ...rules[0], ...change }] });
}

describe('a leg that grows', () => {
  test('makes the break as much wider, up to the width that the rule allows', () => {
    expect(legLimitOf(star(20, 9), [shopSet([30])])?.longestMm).toBe(19);
    expect(legLimitOf(star(30, 9), [shopSet([30])])?.longestMm).toBe(9);
    // A part of a millimetre is not measured.
    expect(legLimitOf(star(20, 9.4), [shopSet([30])])?.longestMm).toBe(19);
  });

  test('is ended by the tightest rule, which is named with its set', () => {
    const limit = legLimitOf(star(20, 9), [shopSet([60, 25, 40])]);
    expect(limit).toMatchObject({ longestMm: 14 });
    expect(limit?.rule).toContain(shopSet([25]).name);
  });

  test('of a crack is its length', () => {
    expect(legLimitOf(sheetWith(crack(45)), [shopSet([80])])?.longestMm).toBe(80);
    // Past 100 mm a crack is not for this unit, whatever a rule says.
    expect(legLimitOf(sheetWith(crack(45)), [shopSet([120])])?.longestMm).toBe(100);
  });

  test('is not ended by a rule that spoke against the damage as it was', () => {
    expect(legLimitOf(star(50, 9), [shopSet([30, 60])])?.longestMm).toBe(19);
  });

  test('comes nearer to another damage, as far as the rule on spacing allows', () => {
    const spaced = shopRule({
      about: 'otherDamageMm',
      limit: { is: 'at-least', value: 60, unit: 'mm' },
    });
    const near = sheetWith({
      'damage.type': 'star-break',
      'damage.longestLegMm': 9,
      'place.otherDamageMm': 75,
    });
    expect(legLimitOf(near, [spaced])?.longestMm).toBe(24);
  });

  test('out of a ring makes it a combination break, which a rule may judge otherwise', () => {
    const onlyRings = shopRule({
      about: 'type',
      limit: undefined,
      forbids: ['combination-break'],
    });
    const ring = sheetWith({ 'damage.type': 'bullseye', 'damage.longestLegMm': 5 });
    expect(legLimitOf(ring, [onlyRings])?.longestMm).toBe(5);
  });

  test('that nobody measured has none', () => {
    const unknown = sheetWith({ 'damage.longestLegMm': 'unknown' });
    expect(legLimitOf(unknown, [shopSet([30])])).toBeNull();
  });
});
