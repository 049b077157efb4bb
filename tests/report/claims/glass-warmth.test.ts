/** What the lamp warmed the glass by is told of the cure in which it did, and of no other. */
import { expect, test } from 'vitest';
import type { Measurement } from '../../../src/core/measurements.ts';
import type { PhaseId } from '../../../src/core/phases.ts';
import { glassRisesIn } from '../../../src/report/claims/glass-warmth.ts';

const phase = (id: PhaseId, fromS: number, toS: number) => ({
  ...{ step: '6.1', cycle: 1 },
  phase: id,
  ...{ fromS, toS },
});
/** Cured apart: the fill from 10 to 100 s, the pit from 200 to 260 s. */
const APART = [
  phase('cure-fill', 10, 100),
  phase('uncover-fill', 100, 200),
  phase('cure', 200, 260),
  phase('scrape', 260, 300),
];
const row = (atS: number, name: Measurement, value: number) => ({
  ...{ atS, name, value },
  portion: null,
});

test('each cure has the rise that was recorded when it ended', () => {
  const measured = [
    row(100, 'glassWarmedK', 3),
    row(100, 'glassUsuallyWarmedK', 4),
    row(260, 'glassWarmedK', 1),
    row(260, 'glassUsuallyWarmedK', 2),
  ];
  expect(glassRisesIn({ phases: APART, measured })).toEqual([
    { seenK: 3, usualK: 4 },
    { seenK: 1, usualK: 2 },
  ]);
});

test('a first cure in which no rise was seen does not take that of the second', () => {
  const measured = [row(260, 'glassWarmedK', 1), row(260, 'glassUsuallyWarmedK', 2)];
  expect(glassRisesIn({ phases: APART, measured })).toEqual([null, { seenK: 1, usualK: 2 }]);
});

test('a cure that was held and went on is one cure', () => {
  const phases = [phase('cure', 10, 40), phase('cure', 60, 100), phase('scrape', 100, 120)];
  const measured = [row(100, 'glassWarmedK', 3)];
  expect(glassRisesIn({ phases, measured })).toEqual([{ seenK: 3, usualK: null }]);
});
