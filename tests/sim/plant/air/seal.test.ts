import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  contactConductance,
  DEMO_CURVATURE_RADIUS_M,
  DEMO_SEAL_FORCE_N,
  DEMO_SEAL_RING,
  GRIT_CONDUCTANCE,
  gapConductance,
  gapM,
  type SealRing,
  sagittaM,
  sealRestriction,
} from '../../../../sim/plant/air/seal.ts';

const conductance = (
  forceN: number,
  { curvatureRadiusM = DEMO_CURVATURE_RADIUS_M, gritConductance = 0, ring = DEMO_SEAL_RING } = {},
): number => sealRestriction(ring, { forceN, curvatureRadiusM, gritConductance }).sonicConductance;

describe('the seal', () => {
  test('of the demo unit leaks 5e-14 m3/(s Pa) when it holds and 2e-12 on grit', () => {
    expect(Math.abs(conductance(DEMO_SEAL_FORCE_N) / 5e-14 - 1)).toBeLessThan(0.02);
    const onGrit = conductance(DEMO_SEAL_FORCE_N, { gritConductance: GRIT_CONDUCTANCE });
    expect(Math.abs(onGrit / 2e-12 - 1)).toBeLessThan(0.01);
  });

  test('leaks less the harder it is pressed', () => {
    const force = fc.double({ min: 0, max: 60, noNaN: true });
    fc.assert(
      fc.property(force, force, (a, b) => {
        const [less, more] = a < b ? [a, b] : [b, a];
        expect(conductance(more)).toBeLessThanOrEqual(conductance(less));
      }),
    );
    expect(conductance(10)).toBeGreaterThan(2 * conductance(20));
  });

  test('leaks a twentieth of a touching ring at its sealing pressure', () => {
    const area = 2 * Math.PI * DEMO_SEAL_RING.radiusM * DEMO_SEAL_RING.contactWidthM;
    const left = contactConductance(DEMO_SEAL_RING, area * DEMO_SEAL_RING.sealingPa);
    expect(left / DEMO_SEAL_RING.touchingConductance).toBeCloseTo(Math.exp(-3), 12);
  });

  test('leaks on grit whatever the force', () => {
    const grit = { gritConductance: GRIT_CONDUCTANCE };
    expect(conductance(100, grit)).toBeGreaterThan(0.99 * GRIT_CONDUCTANCE);
  });
});

describe('on a curved pane', () => {
  test('the glass falls away by the square of the ring over twice the radius of curvature', () => {
    expect(sagittaM(0.01, 3) * 1e6).toBeCloseTo((0.01 * 0.01 * 1e6) / 6, 3);
    expect(sagittaM(0.03, 0.05)).toBeCloseTo(0.05 - 0.04, 15);
  });

  test('a soft ring takes up what a hard ring leaves as a gap', () => {
    const hard: SealRing = { ...DEMO_SEAL_RING, stiffnessNPerM: 1e7 };
    expect(gapM(DEMO_SEAL_RING, 20, 3)).toBe(0);
    expect(gapM(hard, 20, 3)).toBeCloseTo(1e-4 / 6 - 2e-6, 9);
    expect(conductance(20, { ring: hard })).toBeGreaterThan(100 * conductance(20));
  });

  test('it leaks more the more the pane is curved, under a hand that hardly presses', () => {
    const flat = conductance(1, { curvatureRadiusM: 100 });
    const curved = conductance(1, { curvatureRadiusM: 3 });
    const tight = conductance(1, { curvatureRadiusM: 1.5 });
    expect(curved).toBeGreaterThan(flat);
    expect(tight).toBeGreaterThan(3 * curved);
  });

  test('a fine gap leaks with the cube of its height and a wide one with its area', () => {
    const leak = (gap: number) => gapConductance(DEMO_SEAL_RING, gap);
    expect(leak(0)).toBe(0);
    expect(leak(2e-7) / leak(1e-7)).toBeCloseTo(8, 2);
    expect(leak(2e-3) / leak(1e-3)).toBeCloseTo(2, 2);
  });
});
