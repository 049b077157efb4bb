import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Measured } from '../../src/core/frame.ts';
import type { Portion } from '../../src/core/measurements.ts';
import {
  NO_DOSES,
  type PortionDoses,
  stepPortions,
  throughPitRatio,
} from '../../src/cure/portions.ts';
import { faulty, measured } from '../frames.ts';

const DT_S = 0.05;
const W_PER_M2 = 200;
const TICK_J_PER_M2 = W_PER_M2 * DT_S;

function expose(
  from: PortionDoses,
  seconds: number,
  on: Portion | 'both',
  { lampOn = true, light = measured(W_PER_M2) as Measured } = {},
): PortionDoses {
  let doses = from;
  for (let tick = 0; tick < Math.round(seconds / DT_S); tick++) {
    doses = stepPortions(doses, light, { lampOn, on }, DT_S);
  }
  return doses;
}

const dosesOf = ({ fill, pit }: PortionDoses) => [fill.doseJPerM2, pit.doseJPerM2];

describe('one exposure for both', () => {
  test('is counted for fill and pit alike, whatever lamp and sensor do', () => {
    const tick = fc.tuple(
      fc.oneof(
        fc.double({ min: 0, max: 1000, noNaN: true }).map(measured),
        fc.constant(faulty('stale')),
      ),
      fc.boolean(),
    );
    fc.assert(
      fc.property(fc.array(tick), (ticks) => {
        let doses = NO_DOSES;
        for (const [light, lampOn] of ticks) {
          doses = stepPortions(doses, light, { lampOn, on: 'both' }, DT_S);
          expect(doses.pit).toEqual(doses.fill);
        }
      }),
    );
  });
});

describe('fill and pit apart', () => {
  test('light on the fill leaves the pit’s count at nothing, and light on the pit leaves the fill’s', () => {
    const filled = expose(NO_DOSES, 10, 'fill');
    expect(filled.fill.doseJPerM2).toBeCloseTo(10 * W_PER_M2 - TICK_J_PER_M2, 6);
    expect(filled.pit.doseJPerM2).toBe(0);
    const both = expose(filled, 5, 'pit');
    expect(both.fill.doseJPerM2).toBe(filled.fill.doseJPerM2);
    expect(both.pit.doseJPerM2).toBeCloseTo(5 * W_PER_M2 - TICK_J_PER_M2, 6);
    expect(both.pit.lampOnS).toBeCloseTo(5 - DT_S, 9);
  });

  test('a pause keeps each count, and cures that were paused end within a tick of those that were not', () => {
    for (const portion of ['fill', 'pit'] as const) {
      const once = expose(NO_DOSES, 20, portion);
      let paused = expose(NO_DOSES, 8, portion);
      const before = dosesOf(paused);
      paused = expose(paused, 60, portion, { lampOn: false });
      expect(dosesOf(paused)).toEqual(before);
      paused = expose(paused, 5, portion);
      paused = expose(paused, 30, portion, { light: faulty('out-of-range') });
      paused = expose(paused, 7, portion);
      const short = once[portion].doseJPerM2 - paused[portion].doseJPerM2;
      // Each stretch begins with a reading that nothing can yet be counted up to.
      expect(short).toBeGreaterThanOrEqual(0);
      expect(short).toBeLessThanOrEqual(2 * TICK_J_PER_M2 + 1e-6);
      expect(paused[portion].pieces).toBe(3);
    }
  });

  test('the fill’s light is over when the pit’s begins: no stretch runs on from one to the other', () => {
    const filled = expose(NO_DOSES, 10, 'fill');
    const next = stepPortions(filled, measured(W_PER_M2), { lampOn: true, on: 'pit' }, DT_S);
    expect(next.fill.lastWPerM2).toBeNull();
    expect(next.fill.doseJPerM2).toBe(filled.fill.doseJPerM2);
    expect(next.pit).toMatchObject({ doseJPerM2: 0, pieces: 1 });
  });

  test('in the dark nothing changes at all', () => {
    const dark = expose(NO_DOSES, 1, 'pit', { lampOn: false });
    expect(dark).toBe(NO_DOSES);
  });
});

describe('what the pit lets through to the fill', () => {
  const curve = { criticalJPerM2: 1000, penetrationM: 1e-3 };

  test('is 1/e at one penetration depth, and everything without depth', () => {
    expect(throughPitRatio(1e-3, curve)).toBeCloseTo(1 / Math.E, 12);
    expect(throughPitRatio(0, curve)).toBe(1);
  });

  test('is not reckoned where depth or resin is not known', () => {
    expect(throughPitRatio(null, curve)).toBeNull();
    expect(throughPitRatio(1e-3, null)).toBeNull();
  });
});
