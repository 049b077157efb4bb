import { expect, test } from 'vitest';
import { ENGLISH_PAPERS } from '../../../src/document/paper-words.ts';
import { doseBar } from '../../../src/document/report/dose-bar.tsx';
import type { DoseResult } from '../../../src/report/claimed-dose.ts';

const DOSE: DoseResult = {
  portion: 'fill and pit',
  verdict: 'not cured',
  objections: [],
  doseJPerM2: 0,
  targetJPerM2: 60_000,
  atResin: null,
  targetSetBy: 'profile',
  uncertainty: null,
  lampOnS: null,
  irradianceMeanWPerM2: null,
  throughPitJPerM2: null,
};

/** Width of a letter of the chart's bold 11.5: 0.62 of its size, as wide system letters are. */
const LETTER = 11.5 * 0.62;

/** Left and right end of every text of the drawing. */
function spansOf(svg: string): readonly (readonly [number, number])[] {
  return [...svg.matchAll(/<text([^>]*)>([^<]*)<\/text>/g)].map(
    ([, attributes = '', text = '']) => {
      const x = Number(/ x="([\d.]+)"/.exec(attributes)?.[1]);
      const wide = text.length * LETTER;
      const anchor = /text-anchor="(\w+)"/.exec(attributes)?.[1] ?? 'start';
      const left = anchor === 'end' ? x - wide : anchor === 'middle' ? x - wide / 2 : x;
      return [left, left + wide];
    },
  );
}

test.each([
  ['no light at all', 0],
  ['light just at the target', 60_000],
  ['ten times the target', 600_000],
  ['a hundred times the target', 6_000_000],
])('with %s every word of the dose bar stays inside the drawing', (_, doseJPerM2) => {
  const uncertainty = {
    standardJPerM2: 1500,
    coverageFactor: 1.645,
    coveragePercent: 95,
    expandedJPerM2: 2500,
    shownJPerM2: 0,
  };
  const block = doseBar({ ...DOSE, doseJPerM2, uncertainty, verdict: 'not shown' }, ENGLISH_PAPERS);
  if (block.kind !== 'figure') throw new Error('a dose with a target is drawn');
  const [, width] = /viewBox="0 0 (\d+)/.exec(block.svg) ?? [];
  const spans = spansOf(block.svg);
  expect(spans).toHaveLength(3);
  for (const [left, right] of spans) {
    expect(left).toBeGreaterThanOrEqual(0);
    expect(right).toBeLessThanOrEqual(Number(width));
  }
});
