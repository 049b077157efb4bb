/**
 * The result of a guided procedure as lines for the display: passed or not, the correction and its
 * uncertainty, or the figures of seal and pump. Units are those of the trade; the words come from
 * the catalogue, also those of why it did not pass, which the records hold in English.
 */

import { type Pair, rewording } from '../../core/rewording.ts';
import { celsiusFromK, kPaFromPa } from '../../core/units.ts';
import { ends } from '../../panel/text.ts';
import type { GuidedCatalogue } from './catalogue.ts';
import type { GuidedResult } from './guided-result.ts';
import { RECORD_WORDS } from './record-words.ts';

const signed = (value: number, decimals: number): string =>
  `${value < 0 ? '-' : '+'}${Math.abs(value).toFixed(decimals)}`;

export function resultLines(
  result: GuidedResult | null,
  { results, live }: GuidedCatalogue,
): readonly string[] {
  if (result === null) return [results.notPassed];
  const head = result.passed ? results.passed : results.notPassed;
  return [head, ...figures(result, results, live)];
}

/** Why it did not pass, in the words of the display. A display has one decimal sign, the point. */
export function refusalTexts(
  { refusals }: GuidedResult,
  words: GuidedCatalogue,
): readonly string[] {
  const pairs = Object.entries(RECORD_WORDS.refusals).map(
    ([id, english]): Pair => [english, words.refusals[id as keyof typeof words.refusals]],
  );
  return refusals.map(rewording(pairs, (figure) => figure));
}

function figures(
  result: GuidedResult,
  words: GuidedCatalogue['results'],
  live: GuidedCatalogue['live'],
): readonly string[] {
  switch (result.channel) {
    case 'pressure': {
      const [atAir = 0, atVacuum = 0] = result.corrections.map(kPaFromPa);
      const [air, vacuum] = result.points.map(({ reference }) => kPaFromPa(reference).toFixed(0));
      const u = kPaFromPa(result.uncertainty?.standard ?? Number.NaN).toFixed(3);
      return [
        ends(`${words.correction} ${air}`, `${signed(atAir, 2)} kPa`),
        ends(`${words.correction} ${vacuum}`, `${signed(atVacuum, 2)} kPa`),
        ends(live.uncertainty, `${u} kPa`),
      ];
    }
    case 'irradiance': {
      const ratios = result.points.map(({ reference, reading }) => reference / reading);
      const factor = ratios.reduce((sum, ratio) => sum + ratio, 0) / ratios.length;
      const u = ((result.uncertainty?.standard ?? Number.NaN) * 100).toFixed(1);
      return [ends(words.factor, factor.toFixed(4)), ends(live.uncertainty, `${u} %`)];
    }
    case 'temperature': {
      const [ice = 0, bath = 0] = result.corrections;
      const at = result.points.map(({ reference }) => celsiusFromK(reference).toFixed(0));
      const u = (result.uncertainty?.standard ?? Number.NaN).toFixed(3);
      return [
        ends(`${words.correction} ${at[0]}`, `${signed(ice, 2)} K`),
        ends(`${words.correction} ${at[1]}`, `${signed(bath, 2)} K`),
        ends(live.uncertainty, `${u} K`),
      ];
    }
    case 'health': {
      const leak = `${result.sealLeakPaPerS.toFixed(1)} Pa/s`;
      const pull = result.pumpDownS === null ? '--' : `${result.pumpDownS.toFixed(2)} s`;
      const bound = result.stoppedEarly ? '<= ' : '';
      return [
        ends(words.leak, leak),
        ends(words.pumpDown, pull),
        ends(words.ultimate, `${bound}${kPaFromPa(result.ultimatePa).toFixed(1)} kPa`),
      ];
    }
  }
}
