import { describe, expect, test } from 'vitest';
import { KNOWN_PLACES, proposedFor } from '../../../src/intake/rules/places.ts';
import { loadBuiltInRuleSets } from '../../../src/intake/rules/rule-sets.ts';

describe('a place', () => {
  test('proposes rule sets that there are, and every one in force somewhere', () => {
    const loaded = loadBuiltInRuleSets();
    const ids = loaded.ok ? loaded.value.map(({ id }) => id) : [];
    const proposed = KNOWN_PLACES.flatMap((code) => proposedFor(code)?.sets ?? []);
    expect(proposed.filter((id) => !ids.includes(id))).toEqual([]);
    expect(ids.filter((id) => !proposed.includes(id))).toEqual(['gb-bs-au-242a-1998', 'us-rolags']);
  });

  test.each([
    ['de', ['de-verkehrsblatt-1986', 'de-verkehrsblatt-1986-over-3500kg']],
    ['NZ', ['as-nzs-2366-1-1999', 'nz-virm-in-service']],
    [' us-wv ', ['us-wv-inspection', 'us-49-cfr-393-60-c']],
  ])('%s proposes its own', (code, sets) => {
    expect(proposedFor(code)?.sets).toEqual(sets);
  });

  test.each(['it', 'es', 'us-tx', 'zz'])('%s has no rule set, and that is said', (code) => {
    expect(proposedFor(code)).toEqual({
      sets: [],
      words: `No rule set is known here for this place (${code}).`,
    });
  });

  test('a country whose regions differ names them and takes none', () => {
    expect(proposedFor('ca')?.sets).toEqual([]);
    expect(proposedFor('ca')?.words).toContain('ca-bc, ca-on, ca-qc, ca-sk');
  });

  test.each(['', 'Germany', 'd', 'de-', 'de_by', '1'])('"%s" is no code of a place', (typed) => {
    expect(proposedFor(typed)).toBeNull();
  });
});
