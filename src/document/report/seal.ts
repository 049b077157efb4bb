/** The seal tests, each with its finding, and the vacuum that the local atmosphere allowed. */
import type { SealFinding } from '../../core/events.ts';
import type { ReportData } from '../../report/report-data.ts';
import { clockWords, kPaAbs, leakWords, plainWords, risePaWords } from '../../report/words.ts';
import type { Block } from '../blocks.ts';

const FINDING_WORDS: Readonly<Record<SealFinding, string>> = {
  tight: 'tight: the seal holds',
  leak: 'leak: the seal does not hold',
  moisture: 'moisture: the break is wet',
  outgassing: 'outgassing: gas from the surfaces of glass and resin',
  unclear: 'unclear',
};

export function sealTable({ sealTests }: ReportData): Block {
  const or = (value: number | null, write: (value: number) => string, none: string): string =>
    value === null ? none : write(value);
  return {
    kind: 'table',
    wide: true,
    caption:
      'Seal tests: pump and vent are closed off and the change of pressure is observed. Leak rate: at the pressure difference of the test under vacuum. Uncertainty: 95 %, from the scatter of the samples, without the share of the volume. Plateau: where a rise levelled off, above the pressure at isolation.',
    heads: ['At, min:s', 'Under', 'Finding', 'Because', 'Leak rate', 'Uncertainty', 'Plateau'],
    empty: 'The seal was not tested.',
    rows: sealTests.map((row) => [
      clockWords(row.atS),
      row.under,
      FINDING_WORDS[row.finding],
      row.why,
      or(row.leakRatePaM3PerS, leakWords, 'not known'),
      or(row.leakRateUncertaintyPaM3PerS, leakWords, 'not known'),
      or(row.risePlateauPa, risePaWords, 'none'),
    ]),
  };
}

export const adaptedTable = ({ adapted }: ReportData): Block => ({
  kind: 'table',
  caption: 'Set-points changed for the local atmosphere, or because a leg grew',
  heads: ['What', 'Asked', 'Given', 'Why'],
  empty: 'No set-point had to be changed.',
  rows: adapted.map(({ what, askedPa, givenPa, why }) => [
    plainWords(what),
    kPaAbs(askedPa),
    kPaAbs(givenPa),
    why,
  ]),
});
