import { expect, test } from 'vitest';
import type { PhaseId } from '../../../src/core/phases.ts';
import type { DoseResult } from '../../../src/report/claimed-dose.ts';
import type { PhaseRow } from '../../../src/report/timeline.ts';
import { lampUseOf } from '../../../src/store/chain/lamp-use.ts';

const phase = (id: PhaseId, fromS: number, toS: number): PhaseRow => ({
  step: '',
  phase: id,
  cycle: 1,
  fromS,
  toS,
});
const dose = (lampOnS: number | null, irradianceMeanWPerM2: number | null) =>
  ({ lampOnS, irradianceMeanWPerM2 }) as DoseResult;
const inputsAt = (lampPercent: number) =>
  ({ profile: { cure: { lampPercent } } }) as unknown as Parameters<typeof lampUseOf>[0]['inputs'];

const WORK = [phase('fill-pit', 0, 100), phase('cure', 100, 420), phase('scrape', 420, 500)];

test('a cure that came to its end counts by the lamp time that it states', () => {
  const use = lampUseOf({ doses: [dose(310, 195)], phases: WORK, inputs: inputsAt(100) });
  expect(use).toEqual({ lampOnS: 310, cures: 1, films: 1, fullDriveWPerM2: 195 });
});

test('a cure that was cut short counts as its whole phase, as no lamp time is stated', () => {
  const use = lampUseOf({ doses: [dose(null, null)], phases: WORK, inputs: inputsAt(100) });
  expect(use).toEqual({ lampOnS: 320, cures: 1, films: 1, fullDriveWPerM2: null });
});

test('fill and pit that were cured apart use a film each, and their times add up', () => {
  const phases = [phase('cure-fill', 0, 70), phase('fill-pit', 70, 90), phase('cure', 90, 130)];
  const both = { doses: [dose(60, 190), dose(35, 194)], phases, inputs: inputsAt(100) };
  expect(lampUseOf(both)).toEqual({ lampOnS: 95, cures: 2, films: 2, fullDriveWPerM2: 194 });
  const cut = { ...both, doses: [dose(60, 190), dose(null, null)] };
  expect(lampUseOf(cut)).toMatchObject({ lampOnS: 110, cures: 2, fullDriveWPerM2: 190 });
});

test('brightness tells of the lamp only at full drive', () => {
  const use = lampUseOf({ doses: [dose(310, 150)], phases: WORK, inputs: inputsAt(80) });
  expect(use.fullDriveWPerM2).toBeNull();
});

test('a job without a cure used neither lamp nor film', () => {
  const phases = [phase('evacuate', 0, 10)];
  const use = lampUseOf({ doses: [], phases, inputs: inputsAt(100) });
  expect(use).toEqual({ lampOnS: 0, cures: 0, films: 0, fullDriveWPerM2: null });
});
