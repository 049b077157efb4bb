import { expect, test } from 'vitest';
import type { Reading } from '../../../src/core/frame.ts';
import { selfTestFindings } from '../../../src/procedure/repair/self-test.ts';
import { DEFAULT_PROFILE } from '../../configs.ts';
import { faulty, HEALTHY_READING, measured } from '../../frames.ts';

const found = (change: Partial<Reading>) =>
  selfTestFindings({ ...HEALTHY_READING, ...change }, DEFAULT_PROFILE, 12.5).map(({ say }) => say);

test('a sound unit at rest in the air has nothing to be found', () => {
  expect(found({})).toEqual([]);
});

test.each([
  ['pressure-sensor-says', { pressurePa: faulty('out-of-range') }],
  ['light-sensor-says', { irradianceWPerM2: faulty('out-of-range') }],
  ['glass-sensor-says', { glassK: faulty('missing') }],
  ['lamp-sensor-says', { heatSinkK: faulty('stale') }],
  ['supply-sensor-says', { supplyV: faulty('missing') }],
  ['board-tripped', { trips: ['watchdog'] }],
  ['not-at-air-pressure', { pressurePa: measured(59_000) }],
  ['not-at-air-pressure', { pressurePa: measured(109_000) }],
  ['strong-light', { irradianceWPerM2: measured(101) }],
] as const)('%s, and nothing else', (say, change) => {
  expect(found(change)).toEqual([say]);
});

test.each([
  { pressurePa: measured(61_000) },
  { pressurePa: measured(108_000) },
  { irradianceWPerM2: measured(99) },
])('just within what it may be nothing is found', (change) => {
  expect(found(change)).toEqual([]);
});

test('a pump that leaves most of the air is of no use, and that is found', () => {
  // 1.2 times the air over a ratio of 1.9 leaves 63 % of it.
  const findings = selfTestFindings(HEALTHY_READING, DEFAULT_PROFILE, 1.9);
  expect(findings.map(({ say }) => say)).toEqual(['vacuum-of-no-use']);
});
