/** Reasons why rules that were met are still no permission. */
import { describe, expect, test } from 'vitest';
import { assess } from '../../../src/intake/rules/assess.ts';
import type { RuleSet } from '../../../src/intake/rules/rule-set.ts';
import { sheetWith } from '../sheets.ts';
import { builtIn, here, shopSet } from './rule-sheets.ts';

/** One rule of an authority about repairing: up to 40 mm, anywhere, for all vehicles. */
const place: RuleSet = { ...shopSet([40]), id: 'demo-place', force: 'authority' };

describe('an assessment', () => {
  test('by a rule in force about repairing, whose figure was read or quoted, allows', () => {
    expect(assess(sheetWith(), [place]).answer).toBe('allowed');
  });

  test.each<[string, NonNullable<RuleSet['outOfForce']>, string]>([
    [
      'superseded',
      { supersededBy: 'Demo 2', withdrawnOn: null, provenance: 'seen', source: 'demo' },
      '"Demo shop" is out of force in this edition: superseded by Demo 2 (read in the text: demo). Compare the damage with the edition in force.',
    ],
    [
      'withdrawn',
      { supersededBy: null, withdrawnOn: '2023-03', provenance: 'second-hand', source: 'demo' },
      '"Demo shop" is out of force in this edition: withdrawn 2023-03 (retold second-hand: demo). Compare the damage with the edition in force.',
    ],
  ])('by an edition that is %s asks for a person and says so', (_what, outOfForce, words) => {
    const { answer, reasons } = assess(sheetWith(), [{ ...place, outOfForce }]);
    expect(answer).toBe('needs-a-person');
    expect(reasons).toMatchObject([{ id: 'out-of-force', words }]);
    // What it refuses stays refused.
    const large = assess(sheetWith({ 'damage.diameterMm': 60 }), [{ ...place, outOfForce }]);
    expect(large.answer).toBe('not-allowed-here');
  });

  test('by an edition that is in force only after the inspection asks for a person', () => {
    // The damage was inspected on 2026-11-20.
    const from = (inForceFrom: string) => assess(sheetWith(), [{ ...place, inForceFrom }]);
    expect(from('2026-11-20').answer).toBe('allowed');
    expect(from('2026-11-21').answer).toBe('needs-a-person');
    expect(from('2026-11-21').reasons.map(({ id }) => id)).toEqual(['not-yet-in-force']);
  });

  test('by an edition out of force that does not cover the vehicle is left to the others', () => {
    const outOfForce = { supersededBy: 'x', withdrawnOn: null, provenance: 'seen', source: 'x' };
    const covers = { vehicles: ['bus'], overKg: null, upToKg: null };
    const old = { ...place, id: 'demo-old', covers, outOfForce } as RuleSet;
    expect(assess(sheetWith(), [place, old]).answer).toBe('allowed');
  });

  test('that rests on a figure from memory asks for a person and names the rule', () => {
    const rules = place.rules.map((rule) => ({ ...rule, provenance: 'from-memory' as const }));
    const { answer, reasons } = assess(sheetWith(), [{ ...place, rules }]);
    expect(answer).toBe('needs-a-person');
    expect(reasons).toMatchObject([
      {
        id: 'from-memory',
        words: expect.stringContaining(
          'of "Demo shop" that the damage satisfies are from memory and unconfirmed: extent-40.',
        ),
      },
    ]);
    // One such rule is enough, in whichever set it stands.
    const memory = { ...place, id: 'demo-memory', rules };
    expect(assess(sheetWith(), [place, memory]).answer).toBe('needs-a-person');
    // A rule for bullseyes from memory says nothing of a star.
    const ofRings = rules.map((rule) => ({ ...rule, when: { type: ['bullseye'] } }));
    const star = sheetWith({ 'damage.type': 'star-break' });
    const other = { ...memory, rules: ofRings };
    expect(assess(star, [place, other]).answer).toBe('allowed');
    expect(assess(sheetWith(), [place, other]).answer).toBe('needs-a-person');
  });

  test('by limits on the finished mark alone asks for a person, and not beside a rule on repairing', () => {
    const { answer, reasons } = here({}, 'nl-rdw-2005');
    expect(answer).toBe('needs-a-person');
    expect(reasons).toMatchObject([
      { id: 'no-repair-rule', words: expect.stringContaining('limit the mark left') },
    ]);
    expect(assess(sheetWith(), [place, builtIn('nl-rdw-2005')]).answer).toBe('allowed');
    // A shop cannot permit what the place says nothing of.
    expect(assess(sheetWith(), [builtIn('nl-rdw-2005'), shopSet([])]).answer).toBe(
      'needs-a-person',
    );
  });

  test('by a set on repairing none of whose rules certainly applies asks for a person', () => {
    const rules = place.rules.map((rule) => ({ ...rule, when: { type: ['star-break' as const] } }));
    for (const damageType of ['bullseye', 'unknown']) {
      const sheet = sheetWith({ 'damage.type': damageType, 'damage.diameterMm': 12 });
      const { answer, reasons } = assess(sheet, [{ ...place, rules }]);
      expect(answer).toBe('needs-a-person');
      expect(reasons.map(({ id }) => id)).toContain('no-repair-rule');
    }
    const star = sheetWith({ 'damage.type': 'star-break' });
    expect(assess(star, [{ ...place, rules }]).answer).toBe('allowed');
  });
});
