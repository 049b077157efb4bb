import { expect, test } from 'vitest';
import type { BottleFact } from '../../../src/report/bottle-facts.ts';
import type { ClaimFacts } from '../../../src/report/claims/claim-facts.ts';
import { ofItsLight } from '../../../src/report/claims/grounds-light.ts';
import { inEnglish } from '../../../src/report/language.ts';

const bottle = (name: string, fromNm: number, toNm: number): BottleFact => ({
  name,
  lot: 'L',
  shelfLife: null,
  glass: null,
  light: { fromNm, toNm },
});
const OF_365 = bottle('ultraviolet', 345, 385);
const OF_405 = bottle('violet', 390, 420);

/** What speaks against the dose of a portion, by these bottles of fill and pit under 365 nm. */
function against(
  portion: 'fill' | 'pit' | 'fill and pit',
  fill: BottleFact | null,
  pit: BottleFact | null,
): readonly string[] {
  const facts = {
    about: { bottles: { fill, pit } },
    inputs: { unit: { lamp: { peakNm: 365 } } },
  } as ClaimFacts;
  return ofItsLight(facts, portion).map(({ line }) => inEnglish(line).split(',')[0] ?? '');
}

test.each([
  ['fill', OF_365, OF_405, []],
  ['fill', OF_405, OF_365, ['violet']],
  ['pit', OF_365, OF_405, ['violet']],
  ['pit', OF_405, OF_365, []],
  // Filled from the only bottle that is named.
  ['pit', OF_405, null, ['violet']],
  ['fill and pit', OF_405, OF_365, ['violet']],
  ['fill and pit', OF_365, OF_405, ['violet']],
  ['fill and pit', OF_405, null, ['violet']],
  ['fill and pit', null, null, []],
] as const)('the dose of the %s is held to its own resin (row %#)', (portion, fill, pit, said) => {
  expect(against(portion, fill, pit)).toEqual(said);
});

test('a unit file from before the wavelength was stated has a lamp of 365 nm', () => {
  const facts = { about: { bottles: { fill: OF_405, pit: null } }, inputs: { unit: {} } };
  const [one] = ofItsLight(facts as unknown as ClaimFacts, 'fill');
  expect(one === undefined ? null : inEnglish(one.line)).toBe(
    'violet, lot L: set by 390 to 420 nm; the lamp peaks at 365 nm',
  );
});
