import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  DEMO_FOOT,
  type Foot,
  pressedRestriction,
  slitConductance,
  slitUnder,
} from '../../../../sim/plant/air/foot.ts';
import {
  contactConductance,
  DEMO_SEAL_RING,
  GRIT_CONDUCTANCE,
  gapConductance,
  gapConductancePerM,
  gapM,
  type SealRing,
  sagittaM,
} from '../../../../sim/plant/air/seal.ts';

/** Of a foot pressed on by so much, in a vented chamber. */
function conductance(clampN: number, change: Partial<Foot> = {}, gritConductance = 0): number {
  const foot = { ...DEMO_FOOT, ...change, clampN };
  const slit = slitConductance(foot, slitUnder(foot, 0));
  return pressedRestriction(foot, 0, gritConductance).sonicConductance + slit;
}

describe('the seal', () => {
  test('of the demo unit leaks 5e-14 m3/(s Pa) at 60 kPa absolute when it holds, and 2e-12 on grit', () => {
    const pulled = (grit: number) => pressedRestriction(DEMO_FOOT, -41_325, grit).sonicConductance;
    expect(Math.abs(pulled(0) / 5e-14 - 1)).toBeLessThan(0.02);
    expect(Math.abs(pulled(GRIT_CONDUCTANCE) / 2e-12 - 1)).toBeLessThan(0.01);
  });

  test('leaks less the harder it is pressed', () => {
    const force = fc.double({ min: 0, max: 300, noNaN: true });
    fc.assert(
      fc.property(force, force, (a, b) => {
        const [less, more] = a < b ? [a, b] : [b, a];
        expect(conductance(more)).toBeLessThanOrEqual(conductance(less));
      }),
    );
    expect(conductance(50)).toBeGreaterThan(2 * conductance(100));
  });

  test('leaks a twentieth of a touching ring at its sealing pressure', () => {
    const area = 2 * Math.PI * DEMO_SEAL_RING.radiusM * DEMO_SEAL_RING.contactWidthM;
    const left = contactConductance(DEMO_SEAL_RING, area * DEMO_SEAL_RING.sealingPa);
    expect(left / DEMO_SEAL_RING.touchingConductance).toBeCloseTo(Math.exp(-3), 12);
  });

  test('leaks on grit whatever the force', () => {
    expect(conductance(200, {}, GRIT_CONDUCTANCE)).toBeGreaterThan(0.99 * GRIT_CONDUCTANCE);
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

  test('the leak of a gap grows by as much as a slightly higher gap leaks more', () => {
    fc.assert(
      fc.property(fc.double({ min: -7, max: -3, noNaN: true }), (decade) => {
        const gap = 10 ** decade;
        const dM = 1e-5 * gap;
        const leak = (heightM: number) => gapConductance(DEMO_SEAL_RING, heightM);
        const secant = (leak(gap + dM) - leak(gap - dM)) / (2 * dM);
        expect(gapConductancePerM(DEMO_SEAL_RING, gap) / secant).toBeCloseTo(1, 6);
      }),
    );
  });
});
