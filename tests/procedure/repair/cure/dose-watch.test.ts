/** What of a reading counts as this lamp's light, by the unit file's figures of the lamp. */
import { describe, expect, test } from 'vitest';
import type { Reading } from '../../../../src/core/frame.ts';
import { NO_PROOF } from '../../../../src/cure/light-proof.ts';
import {
  countLight,
  failedGapEvents,
  lightSeen,
  lightShareRatioOf,
} from '../../../../src/procedure/repair/cure/dose-watch.ts';
import type { RepairScene } from '../../../../src/procedure/repair/repair-state.ts';
import { DEFAULT_CONFIG } from '../../../configs.ts';
import { faulty, measured } from '../../../frames.ts';
import { pass } from '../../../steered-unit.ts';
import { repairIn } from '../../../steering.ts';

/** 195 W/m2 at full drive and 40 C of the heat sink; 0.3 % less a kelvin above it. */
const KNOWN_W_PER_M2 = 195;
const AT_K = 313.15;
const readingOf = (wPerM2: number | null, sinkK: number | null = AT_K): Reading =>
  ({
    irradianceWPerM2: wPerM2 === null ? faulty('stale') : measured(wPerM2),
    heatSinkK: sinkK === null ? faulty('stale') : measured(sinkK),
  }) as Reading;
const share = (reading: Reading, lampRatio = 1) =>
  lightShareRatioOf(reading, { lampRatio }, DEFAULT_CONFIG);

describe('the light against what the lamp is known to give', () => {
  test('is all of it at the known drive and heat sink, and half of it at twice', () => {
    expect(share(readingOf(KNOWN_W_PER_M2))).toBeCloseTo(1, 9);
    expect(share(readingOf(KNOWN_W_PER_M2 / 2))).toBeCloseTo(0.5, 9);
    expect(share(readingOf(KNOWN_W_PER_M2 / 2), 0.5)).toBeCloseTo(1, 9);
  });

  test('droops with the heat sink, which gives more while it is cold', () => {
    expect(share(readingOf(KNOWN_W_PER_M2 * 0.94, AT_K + 20))).toBeCloseTo(1, 9);
    expect(share(readingOf(KNOWN_W_PER_M2 * 1.06, AT_K - 20))).toBeCloseTo(1, 9);
  });

  test('is taken as at the known heat sink where that is not read', () => {
    expect(share(readingOf(KNOWN_W_PER_M2, null))).toBeCloseTo(1, 9);
  });

  test('never droops below a fifth', () => {
    expect(share(readingOf(KNOWN_W_PER_M2 * 0.2, AT_K + 400))).toBeCloseTo(1, 9);
  });

  test('is not known without a reading, without drive, and for a lamp of unknown output', () => {
    expect(share(readingOf(null))).toBeNull();
    expect(share(readingOf(KNOWN_W_PER_M2), 0)).toBeNull();
    const unit = { ...DEFAULT_CONFIG.unit, lampLastKnownWPerM2: null };
    expect(lightShareRatioOf(readingOf(KNOWN_W_PER_M2), { lampRatio: 1 }, { unit })).toBeNull();
  });
});

test('light of more than 115 % of the lamp buys no dose, from its first tick on', () => {
  const { state, config } = pass(repairIn('cure-fill'), 2);
  const countedOf = (percent: number): number => {
    const reading = readingOf((KNOWN_W_PER_M2 * percent) / 100);
    const lit = { ...state, commanded: { ...state.commanded, lampEnabled: true, lampRatio: 1 } };
    const before = state.scene.doses.fill.doseJPerM2;
    return countLight(lit, reading, config, 0.05).fill.doseJPerM2 - before;
  };
  expect(countedOf(114.9)).toBeGreaterThan(0);
  expect(countedOf(115.1)).toBe(0);
});

test('the sensor is dark at 3 W/m2 and below, and not where it reads nothing', () => {
  const { state, config } = repairIn('cure-fill');
  const darkAt = (wPerM2: number | null) => lightSeen(state, readingOf(wPerM2), config).dark;
  expect([darkAt(3), darkAt(3.01), darkAt(null)]).toEqual([true, false, false]);
});

test('a failed gap is recorded with what it lost, for one portion or for both', () => {
  const sceneOf = (on: 'both' | 'pit') =>
    ({ proof: { ...NO_PROOF, failed: { on, why: 'not-dark', lostJPerM2: 42 } } }) as RepairScene;
  const gap = { kind: 'gap-failed', why: 'not-dark', lostJPerM2: 42 };
  expect(failedGapEvents(sceneOf('pit'))).toEqual([{ ...gap, portion: 'pit' }]);
  expect(failedGapEvents(sceneOf('both'))).toEqual([{ ...gap, portion: null }]);
  expect(failedGapEvents({ proof: NO_PROOF } as RepairScene)).toEqual([]);
});
