/**
 * Every figure of every rule set, transcribed a second time from the texts: two independent
 * entries seldom contain the same slip. The tables are in `figures/`.
 */
import { describe, expect, test } from 'vitest';
import type { Rule, RuleSet } from '../../../src/intake/rules/rule-set.ts';
import { loadBuiltInRuleSets } from '../../../src/intake/rules/rule-sets.ts';
import type { Area } from '../../../src/intake/sheet/area.ts';
import { AMERICA } from './figures/america.ts';
import { EUROPE } from './figures/europe.ts';
import type { SetFigures } from './figures/figures.ts';
import { OCEANIA } from './figures/oceania.ts';

const FIGURES: Readonly<Record<string, SetFigures>> = { ...AMERICA, ...EUROPE, ...OCEANIA };

function coverFigures(covers: RuleSet['covers']): string {
  const { vehicles, overKg, upToKg, fewerSeatsThan, use } = covers;
  return [
    vehicles === 'all' ? 'all' : vehicles.join(' '),
    ...(overKg === null ? [] : [`> ${overKg}`]),
    ...(upToKg === null ? [] : [`< ${upToKg}`]),
    ...(fewerSeatsThan === null ? [] : [`seats ${fewerSeatsThan}`]),
    ...(use === 'any' ? [] : [use]),
  ].join(' ');
}

function areaFigures(area: Area): string {
  switch (area.kind) {
    case 'both':
      return area.parts.map(areaFigures).join(', ');
    case 'strip':
      return `${area.about} ${area.widthMm}`;
    case 'box':
      return `${area.about} ${area.widthMm} high ${area.heightMm} at ${area.level}`;
    case 'across':
      return `across ${area.about} ${area.widthMm} high ${area.heightMm} at ${area.level}`;
    case 'driver-band':
    case 'divider':
      return `${area.kind} ${area.widthMm}`;
    case 'inset':
      return `off ${area.leftMm} ${area.topMm} ${area.rightMm} ${area.bottomMm}`;
    default:
      return area.kind;
  }
}

const SIGNS = { 'at-most': '<', 'at-least': '>', 'less-than': 'less than' };
const ruleFigures = ({ about, limit, forbids }: Rule): string =>
  limit === undefined
    ? `${about} not ${(forbids ?? []).join(' ')}`
    : `${about} ${SIGNS[limit.is]} ${limit.value} ${limit.unit}`;

describe('the figures of', () => {
  const loaded = loadBuiltInRuleSets();
  const sets = loaded.ok ? loaded.value : [];

  test('no set are left out', () => {
    expect(sets.map(({ id }) => id)).toEqual(Object.keys(FIGURES).toSorted());
  });

  test.each(sets)('$id hold for the vehicles, and as long, as its text', ({ id, ...set }) => {
    expect(coverFigures(set.covers)).toBe(FIGURES[id]?.covers ?? 'all');
    const { outOfForce } = set;
    expect(outOfForce === null ? null : [outOfForce.supersededBy, outOfForce.withdrawnOn]).toEqual(
      FIGURES[id]?.outOfForce ?? null,
    );
  });

  test.each(sets)('$id are those of its text', ({ id, zones, rules }) => {
    const zoneIds = zones.map((zone) => zone.id);
    const found = Object.fromEntries([
      ...zones.map((zone) => [zone.id, areaFigures(zone.area)]),
      ...rules.map((rule) => [
        zoneIds.includes(rule.id) ? `${rule.id}/rule` : rule.id,
        ruleFigures(rule),
      ]),
    ]);
    expect(found).toEqual(FIGURES[id]?.figures);
  });

  test.each(sets)('$id can be looked up: by whom, on which day, in which words', ({ rules }) => {
    for (const { provenance, source, lookedOn, quote } of rules) {
      expect(source.length).toBeGreaterThan(10);
      const looked = ['seen', 'copy', 'second-hand'].includes(provenance);
      expect(lookedOn).toBe(looked ? '2026-11-26' : null);
      if (provenance === 'copy') expect(quote?.length).toBeGreaterThan(10);
    }
  });
});
