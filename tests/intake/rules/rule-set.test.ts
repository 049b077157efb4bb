import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { problemLine } from '../../../src/core/settings.ts';
import test49 from '../../../src/intake/rule-sets/america/us-49-cfr-393-60-c.json' with {
  type: 'json',
};
import germany from '../../../src/intake/rule-sets/europe/de-verkehrsblatt-1986.json' with {
  type: 'json',
};
import { parseRuleSet } from '../../../src/intake/rules/rule-set.ts';
import { loadBuiltInRuleSets } from '../../../src/intake/rules/rule-sets.ts';
import { rulesTable } from '../../../src/intake/rules/rules-table.ts';

const problems = (input: unknown): readonly string[] => {
  const checked = parseRuleSet(input, 'shop.json');
  return checked.ok ? [] : checked.problems.map(problemLine);
};

/** The German file with its third rule, the crater, changed. */
const withCrater = (changes: Readonly<Record<string, unknown>>) => ({
  ...germany,
  rules: germany.rules.map((rule, at) => (at === 2 ? { ...rule, ...changes } : rule)),
});

const OLD = { supersededBy: 'x', withdrawnOn: '2023-03', provenance: 'seen', source: 'demo' };

describe('a rule set file', () => {
  test('that comes with the unit is accepted, each under an id of its own', () => {
    const loaded = loadBuiltInRuleSets();
    if (!loaded.ok) throw new Error(loaded.problems.map(problemLine).join('\n'));
    const ids = loaded.value.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    expect(problems(germany)).toEqual([]);
  });

  test.each([
    ['an unknown field', { limits: 5 }, 'rules.2.limits is 5; accepted: no such field'],
    [
      'a zone that it does not have',
      { in: ['zone-x'] },
      'rules.2.in.0 is "zone-x"; accepted: one of anywhere, far-field',
    ],
    ['an id twice', { id: 'cracks' }, 'rules.3.id is "cracks"; accepted: an id that no other has'],
    [
      'no limit for a quantity',
      { limit: undefined },
      'rules.2.limit is missing; accepted: a limit',
    ],
    [
      'answers for a quantity',
      { forbids: [true] },
      'rules.2.forbids is [true]; accepted: nothing, because pitMm is a quantity',
    ],
    [
      'a unit that does not fit',
      { limit: { is: 'at-most', value: 5, unit: 'edges' } },
      'rules.2.limit.unit is "edges"; accepted: mm or in',
    ],
    [
      'a limit below zero',
      { limit: { is: 'at-most', value: -1, unit: 'mm' } },
      'rules.2.limit.value is -1; accepted: a number from 0 to 5000',
    ],
    [
      'a word for a limit that is none',
      { limit: { is: 'about', value: 5, unit: 'mm' } },
      'rules.2.limit.is is "about"; accepted: one of at-most, less-than, at-least',
    ],
    [
      'a limit for a question',
      { about: 'moisture' },
      'rules.2.limit is {"is":"at-most","value":5,"unit":"mm"}; accepted: nothing, because moisture is a question',
    ],
    [
      'an answer that cannot be given',
      { about: 'moisture', limit: undefined, forbids: ['soggy'] },
      'rules.2.forbids.0 is "soggy"; accepted: from dry, damp, wet',
    ],
    [
      'a condition with no such answer',
      { when: { type: ['star'] } },
      'rules.2.when.type.0 is "star"; accepted: from bullseye',
    ],
    [
      'a condition on a quantity',
      { when: { pitMm: [true] } },
      'rules.2.when.pitMm.0 is true; accepted: a question, not a quantity',
    ],
    [
      'a measure that nobody takes',
      { about: 'colour' },
      'rules.2.about is "colour"; accepted: one of extentMm',
    ],
    [
      'no provenance',
      { provenance: undefined },
      'rules.2.provenance is missing; accepted: one of seen, copy, second-hand',
    ],
    [
      'no day on which the copy was looked at',
      { lookedOn: null },
      'rules.2.lookedOn is null; accepted: the day it was looked at, for "copy"',
    ],
    [
      'a copy without its words',
      { quote: null },
      'rules.2.quote is null; accepted: a short quotation, for "copy"',
    ],
  ])('with %s is refused', (_what, changes, expected) => {
    expect(problems(withCrater(changes)).join('\n')).toContain(`shop.json: ${expected}`);
  });

  test.each([
    [
      'of another kind',
      { schema: 'meniscus/job@1' },
      'schema is "meniscus/job@1"; accepted: "meniscus/rule-set@1"',
    ],
    [
      'with a strip about nothing',
      { zones: [{ id: 'a', words: 'a', area: { kind: 'strip', about: 'pillar', widthMm: 290 } }] },
      'zones.0.area',
    ],
    [
      'with a zone called anywhere',
      { zones: [...germany.zones, { id: 'anywhere', words: 'a', area: { kind: 'whole' } }] },
      'zones.3.id is "anywhere"; accepted: an id that no other has',
    ],
    [
      'with a date that is none',
      { inForceFrom: '1986' },
      'inForceFrom is "1986"; accepted: a date as YYYY-MM-DD',
    ],
    [
      'out of force for no reason',
      { outOfForce: { ...OLD, supersededBy: null, withdrawnOn: null } },
      'outOfForce is {"supersededBy":null,"withdrawnOn":null,"provenance":"see...; accepted: what superseded it, when it was withdrawn, or both',
    ],
    [
      'withdrawn in a month that there is not',
      { outOfForce: { ...OLD, withdrawnOn: '2023-13' } },
      'outOfForce.withdrawnOn is "2023-13"; accepted: a month or a date as YYYY-MM or YYYY-MM-DD',
    ],
    [
      'out of force without saying who says so',
      { outOfForce: { ...OLD, source: undefined } },
      'outOfForce.source is missing',
    ],
    ['without rules', { rules: [] }, 'rules is []; accepted: at least one rule'],
    ['for vehicles that there are not', { covers: { vehicles: ['boat'] } }, 'covers.vehicles'],
  ])('%s is refused', (_what, changes, expected) => {
    expect(problems({ ...germany, ...changes }).join('\n')).toContain(`shop.json: ${expected}`);
  });

  test('about the finished mark may ask for a person and not refuse beforehand', () => {
    const [first, ...rest] = test49.rules;
    // biome-ignore lint/suspicious/noThenProperty: the file's word; never awaited.
    const refusing = { ...test49, rules: [{ ...first, then: 'not-allowed' }, ...rest] };
    expect(problems(refusing)).toEqual([
      expect.stringContaining('rules.0.then is "not-allowed"; accepted: "needs-a-person"'),
    ]);
  });
});

test('the page of all rules is as the function writes it', () => {
  const path = fileURLToPath(new URL('../../../src/intake/rule-sets/README.md', import.meta.url));
  const loaded = loadBuiltInRuleSets();
  expect(loaded.ok && rulesTable(loaded.value)).toBe(readFileSync(path, 'utf8'));
});
