/**
 * The distance between repairs by BS AU 242a, and the scope of Maryland's maintenance program,
 * worked out by hand. The pane is 2400 x 1200 mm, the driver on its left.
 */
import { describe, expect, test } from 'vitest';
import type { Changes } from '../sheets.ts';
import { at, brokenIds, crack, here, ring, ruleIds, truck, type } from './rule-sheets.ts';

const repairAt = (mm: number | 'unknown'): Changes => ({
  'place.repairsOnPane': 1,
  'place.earlierRepairMm': mm,
});

describe('in zones B, C and D of BS AU 242a', () => {
  test.each<[string, Changes, string, Changes]>([
    // 100 mm from rim to rim, in zones B, C and D.
    [
      'next repair in zone B',
      { ...at(850, 600), ...repairAt(100) },
      'earlier-repair',
      { ...at(850, 600), ...repairAt(99) },
    ],
    [
      'next repair in zone C',
      { ...at(1400, 600), ...repairAt(100) },
      'earlier-repair',
      { ...at(1400, 600), ...repairAt(99) },
    ],
    ['next repair in zone D', repairAt(100), 'earlier-repair', repairAt(99)],
    [
      'other damage in zone C',
      { ...at(1400, 600), 'place.otherDamageMm': 100 },
      'other-damage',
      { ...at(1400, 600), 'place.otherDamageMm': 99 },
    ],
  ])('100 mm hold, and not less, from the %s', (_what, inside, rule, outside) => {
    expect(ruleIds(inside, 'gb-bs-au-242a-1998')).toEqual([]);
    expect(brokenIds(outside, 'gb-bs-au-242a-1998')).toEqual([rule]);
  });

  test('a star of 20 mm 60 mm from an earlier repair is refused by BS AU 242a in zone C', () => {
    const star = { ...type('star-break'), ...ring(20), ...at(1400, 600) };
    const near = here({ ...star, ...repairAt(60) }, 'gb-bs-au-242a-1998');
    expect(near.answer).toBe('not-allowed-here');
    // How far it is, nobody knows: a person finds out.
    const unknown = here({ ...star, ...repairAt('unknown') }, 'gb-bs-au-242a-1998');
    expect(unknown.answer).toBe('needs-a-person');
    expect(unknown.reasons).toContainEqual(
      expect.objectContaining({ id: 'earlier-repair', open: ['place.earlierRepairMm'] }),
    );
  });
});

describe('the maintenance program of Maryland', () => {
  test('in Maryland a crack from an edge asks on the driver’s side and not on the other', () => {
    const fromEdge = { ...truck, ...crack(100), 'damage.edgesReached': 1 };
    const set = 'us-md-comar-11-22-02-20';
    expect(brokenIds({ ...fromEdge, ...at(300, 600) }, set)).toContain('edge-cracks');
    expect(brokenIds({ ...fromEdge, ...at(1400, 600) }, set)).toEqual([]);
  });

  test.each([
    ['car', 1900],
    // A light van, and a lorry of 10,000 lb.
    ['van', 3500],
    ['truck', 4536],
    ['bus', 18_000],
  ])('a %s of %i kg in Maryland is judged by no rule of the maintenance program', (kind, mass) => {
    const light = { 'vehicle.class': kind, 'vehicle.grossMassKg': mass, ...ring(40) };
    const { answer, reasons, checked } = here(
      { ...light, ...at(1400, 600) },
      'us-md-comar-11-22-02-20',
    );
    expect(answer).toBe('needs-a-person');
    expect(reasons.map(({ id }) => id)).toEqual(['not-covered']);
    expect(checked.every(({ outcome }) => outcome === 'does-not-apply')).toBe(true);
  });
});
