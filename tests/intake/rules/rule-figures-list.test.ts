/**
 * Every figure of every rule set, transcribed a second time from the texts: two independent
 * transcriptions seldom contain the same slip. "<" stands for at most, ">" for at least.
 */
import { describe, expect, test } from 'vitest';
import type { Rule, RuleSet } from '../../../src/intake/rules/rule-set.ts';
import { loadBuiltInRuleSets } from '../../../src/intake/rules/rule-sets.ts';
import type { Area } from '../../../src/intake/sheet/area.ts';

const ALL = 'type not bullseye half-moon star-break combination-break surface-pit crack';

const FIGURES: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  'as-nzs-2366-1-1999': {
    critical: 'seat 300, off 0 90 0 65',
    outside: 'whole',
    'edge-to-edge': 'edgesReached < 1 edges',
    'beyond-outer': 'innerPlyTouched not true',
    'bonding-layer': 'interlayerTouched not true',
    'eight-repairs': 'repairsOnPane < 7 repairs',
    'repaired-crack': 'longestLegMm < 100 mm',
    'two-in-critical': 'repairsOnPane < 1 repairs',
    neighbour: 'earlierRepair not true',
    'critical-sizes': ALL,
    star: 'extentMm < 30 mm',
    'other-sizes': 'type not bullseye half-moon combination-break crack surface-pit',
  },
  'au-nsw-vsi-3': {
    'driver-side': 'driver-half',
    bullseye: 'extentMm < 16 mm',
    hairline: 'longestLegMm < 30 mm',
    'edge-crack': 'longestLegMm < 75 mm',
    'not-listed': 'type not half-moon star-break combination-break surface-pit',
    'any-two': 'otherDamage not true',
  },
  'ca-bc-mva-division-7': {
    'driver-area': 'driver-band 500, off 0 75 0 75',
    elsewhere: 'whole',
    'driver-marks': 'extentMm < 6 mm',
    'driver-cracks': 'type not crack',
    crack: 'longestLegMm < 300 mm',
    mark: 'extentMm < 40 mm',
    several: 'otherDamage not true',
  },
  'ca-qc-c-24-2-r-32': {
    'swept-less-borders': 'sweep, off 0 75 0 75',
    flakes: 'extentMm < 12 mm',
    'cracks-meet': 'cracksMeet not true',
  },
  'ca-sk-inspection': {
    swept: 'sweep',
    chip: 'extentMm < 13 mm',
    crack: 'longestLegMm < 50 mm',
  },
  'de-verkehrsblatt-1986': {
    'far-field': 'seat 290, wheel 290, sweep',
    'far-field-by-seat': 'seat 290, sweep',
    'far-field-by-wheel': 'wheel 290, sweep',
    'far-field/rule': ALL,
    'far-field-perhaps': ALL,
    crater: 'pitMm < 5 mm',
    cracks: 'longestLegMm < 50 mm',
    'under-the-seal': 'edgesReached < 0 edges',
    'inner-ply': 'innerPlyTouched not true',
    interlayer: 'interlayerTouched not true',
    dry: 'moisture not damp wet',
    clean: 'contamination not can-be-removed stays',
  },
  'gb-bs-au-242a-1998': {
    'zone-a': 'wheel 290, sweep',
    'zone-b': 'driver-half, sweep',
    'zone-c': 'sweep',
    'zone-d': 'whole',
    'zone-a/rule': 'extentMm < 10 mm',
    'zone-b/rule': 'extentMm < 15 mm',
    'zone-c/rule': 'extentMm < 25 mm',
    'zone-d/rule': 'extentMm < 40 mm',
    'earlier-repair': 'earlierRepairMm > 100 mm',
    'other-damage': 'otherDamageMm > 100 mm',
    cracks: 'type not crack',
  },
  'gb-mot-over-3500kg': {
    'zone-a': 'wheel 350, sweep',
    swept: 'sweep',
    'zone-a/rule': 'extentMm < 10 mm',
    'swept/rule': 'extentMm < 40 mm',
  },
  'gb-mot-up-to-3500kg': {
    'zone-a': 'wheel 290, sweep',
    swept: 'sweep',
    'zone-a/rule': 'extentMm < 10 mm',
    'swept/rule': 'extentMm < 40 mm',
  },
  'nl-rdw-2005': {
    'direct-field': 'extentMm < 20 mm',
    outside: 'extentMm < 50 mm',
    'cracks-meet': 'cracksMeet not true',
  },
  'nz-virm-in-service': {
    critical: 'seat 300, off 0 90 0 65',
    outside: 'whole',
    layers: 'innerPlyTouched not true',
    'critical/rule': 'type not bullseye half-moon star-break combination-break crack',
    'critical-pits': 'type not surface-pit',
    star: 'extentMm < 30 mm',
    'other-sizes': 'type not bullseye half-moon combination-break crack',
  },
  'us-49-cfr-393-60-c': {
    view: 'above-wheel, off 25 51 25 0',
    disc: 'extentMm < 19 mm',
    apart: 'otherDamageMm > 76 mm',
    'cracks-meet': 'cracksMeet not true',
  },
  'us-md-comar-11-22-02-20': {
    'driver-swept': 'driver-half, sweep',
    swept: 'sweep',
    'driver-side': 'driver-half',
    chips: 'extentMm < 0.5 in',
    'driver-cracks': 'type not crack',
    'edge-cracks': 'edgeReached not true',
  },
  'us-ny-inspection': {
    swept: 'sweep',
    crack: 'longestLegMm < 11 in',
    star: 'extentMm < 3 in',
  },
  'us-rolags': {
    // 12 in.
    'primary-view': 'wheel 304.8, sweep',
    bullseye: 'extentMm < 25 mm',
    'half-moon': 'extentMm < 25 mm',
    star: 'extentMm < 75 mm',
    combination: 'bodyMm < 50 mm',
    'surface-pit': 'extentMm > 3 mm',
    'crack-first-edition': 'longestLegMm < 356 mm',
    'crack-later': 'longestLegMm < 152 mm',
    pit: 'pitMm < 9.5 mm',
    'long-cracks': 'cracksMeet not true',
    edges: 'edgesReached < 1 edges',
    'stress-crack': 'impactPoint not false',
    'inner-ply': 'innerPlyTouched not true',
    interlayer: 'interlayerTouched not true',
    contamination: 'contamination not stays',
    'feature-camera': 'cameraField not true',
    'feature-heater': 'heatedField not true',
    'feature-head-up-display': 'headUpDisplay not true',
    'feature-antenna': 'antenna not true',
    'view-size': 'extentMm < 25 mm',
    'view-pit': 'pitMm < 5 mm',
    'view-neighbour': 'earlierRepairMm > 100 mm',
    'view-display': 'headUpDisplay not true',
  },
  'us-wv-inspection': {
    // 8.5 x 11 in; its longer side where it may reach.
    acute: 'wheel 215.9 high 279.4',
    'acute-perhaps': 'wheel 279.4, sweep',
    critical: 'sweep',
    elsewhere: 'whole',
    'acute/rule': ALL,
    'acute-perhaps/rule': ALL,
    'critical-length': 'longestLegMm < 3 in',
    'critical-diameter': 'extentMm < 1.5 in',
    'elsewhere-length': 'longestLegMm < 6 in',
    'elsewhere-diameter': 'extentMm < 1.5 in',
  },
};

/** Which vehicles, where it is not all; ">" for over and "<" for up to, in kg. */
const COVERS: Readonly<Record<string, string>> = {
  'de-verkehrsblatt-1986': 'car van',
  'gb-mot-over-3500kg': 'truck bus van other > 3500',
  'gb-mot-up-to-3500kg': 'car van bus other < 3500',
  'us-49-cfr-393-60-c': 'truck bus van tractor other',
  // 10,000 lb.
  'us-md-comar-11-22-02-20': 'truck van > 4536',
};

/** What has superseded it, and since when it is withdrawn. */
const OUT_OF_FORCE: Readonly<Record<string, readonly [string | null, string | null]>> = {
  'gb-bs-au-242a-1998': ['BS AU 242b:2022', '2023-03'],
  'us-rolags': ['ANSI/NWRA/ROLAGS 001-2014', null],
};

function coverFigures({ vehicles, overKg, upToKg }: RuleSet['covers']): string {
  return [
    vehicles === 'all' ? 'all' : vehicles.join(' '),
    ...(overKg === null ? [] : [`> ${overKg}`]),
    ...(upToKg === null ? [] : [`< ${upToKg}`]),
  ].join(' ');
}

function areaFigures(area: Area): string {
  switch (area.kind) {
    case 'both':
      return area.parts.map(areaFigures).join(', ');
    case 'strip':
      return `${area.about} ${area.widthMm}`;
    case 'box':
      return `${area.about} ${area.widthMm} high ${area.heightMm}`;
    case 'driver-band':
      return `driver-band ${area.widthMm}`;
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
    expect(sets.map(({ id }) => id)).toEqual(Object.keys(FIGURES));
  });

  test.each(sets)('$id hold for the vehicles, and as long, as its text', ({ id, ...set }) => {
    expect(coverFigures(set.covers)).toBe(COVERS[id] ?? 'all');
    const { outOfForce } = set;
    expect(outOfForce === null ? null : [outOfForce.supersededBy, outOfForce.withdrawnOn]).toEqual(
      OUT_OF_FORCE[id] ?? null,
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
    expect(found).toEqual(FIGURES[id]);
  });
});
