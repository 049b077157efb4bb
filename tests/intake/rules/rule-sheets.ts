/** Short ways to say a damage, its place and the built-in rule sets it is put to. */
import { assess } from '../../../src/intake/rules/assess.ts';
import { isRule } from '../../../src/intake/rules/reason.ts';
import { type RuleSet, ruleSetSchema } from '../../../src/intake/rules/rule-set.ts';
import { loadBuiltInRuleSets } from '../../../src/intake/rules/rule-sets.ts';
import { type Changes, sheetWith } from '../sheets.ts';

const loaded = loadBuiltInRuleSets();

export function builtIn(id: string): RuleSet {
  const found = loaded.ok ? loaded.value.find((set) => set.id === id) : undefined;
  if (found === undefined) throw new Error(`no rule set ${id}`);
  return found;
}

export const here = (changes: Changes, ...ids: readonly string[]) =>
  assess(sheetWith(changes), ids.map(builtIn));
export const reasonIds = (changes: Changes, id: string) =>
  here(changes, id).reasons.map((reason) => reason.id);
/** Of the rules that are broken or cannot be judged. */
export const ruleIds = (changes: Changes, id: string) =>
  here(changes, id)
    .reasons.filter(isRule)
    .map((rule) => rule.id);
export const brokenIds = (changes: Changes, id: string) =>
  here(changes, id)
    .reasons.filter((reason) => isRule(reason) && reason.outcome === 'broken')
    .map((reason) => reason.id);

export const at = (fromLeftMm: number, fromTopMm: number): Changes => ({
  'place.fromLeftMm': fromLeftMm,
  'place.fromTopMm': fromTopMm,
});
export const ring = (diameterMm: number): Changes => ({ 'damage.diameterMm': diameterMm });
export const type = (name: string): Changes => ({ 'damage.type': name });
export const crack = (longestLegMm: number): Changes => ({
  ...type('crack'),
  'damage.longestLegMm': longestLegMm,
});
export const truck: Changes = {
  'vehicle.class': 'truck',
  'vehicle.grossMassKg': 18_000,
  'vehicle.commercialUse': true,
};

/** Before the driver, over the wheel, in the wiped area, in both readings of the German strip. */
export const BEFORE_DRIVER = at(640, 800);

/** Sets in force about repairing whose figures were read or quoted: the only ones that can permit. */
export const CAN_PERMIT = [
  'as-nzs-2366-1-1999',
  'de-verkehrsblatt-1986',
  'gb-bs-au-242b-2022',
  'us-wv-inspection',
];

/** A shop's own set; each number is a limit on the greatest extent. */
export function shopSet(limitsMm: readonly number[]): RuleSet {
  const rule = (value: number) => ({
    id: `extent-${value}`,
    in: ['anywhere'],
    about: 'extentMm',
    limit: { is: 'at-most', value, unit: 'mm' },
    // biome-ignore lint/suspicious/noThenProperty: the file's word; never awaited.
    then: 'not-allowed',
    words: 'Demo rule of a shop.',
    provenance: 'shop',
    source: 'demo',
  });
  return ruleSetSchema.parse({
    schema: 'meniscus/rule-set@1',
    id: 'demo-shop',
    name: 'Demo shop',
    jurisdiction: 'demo',
    force: 'shop',
    kind: 'repair',
    covers: { vehicles: 'all' },
    edition: 'demo',
    inForceFrom: null,
    source: 'demo',
    notes: [],
    zones: [],
    rules: (limitsMm.length === 0 ? [400] : limitsMm).map(rule),
  });
}
