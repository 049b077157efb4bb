/** The seal tests, each with its finding, and the vacuum that the local atmosphere allowed. */
import type { ReportData } from '../../report/report-data.ts';
import { clockWords, kPaAbs, leakWords, risePaWords } from '../../report/words.ts';
import type { Block } from '../blocks.ts';
import type { PaperWords } from '../paper-words.ts';

export function sealTable({ sealTests }: ReportData, { report, tongue }: PaperWords): Block {
  const { seal, said } = report;
  const or = (value: number | null, write: (value: number) => string, none: string): string =>
    value === null ? none : tongue.figure(write(value));
  return {
    kind: 'table',
    wide: true,
    caption: seal.about,
    heads: [
      said.at,
      seal.under,
      seal.finding,
      seal.because,
      seal.leak,
      seal.uncertainty,
      seal.plateau,
    ],
    empty: seal.noTest,
    rows: sealTests.map((row) => [
      clockWords(row.atS),
      seal.loads[row.under],
      seal.findings[row.finding],
      tongue.recorded(row.why),
      or(row.leakRatePaM3PerS, leakWords, said.notKnown),
      or(row.leakRateUncertaintyPaM3PerS, leakWords, said.notKnown),
      or(row.risePlateauPa, risePaWords, said.none),
    ]),
  };
}

export const adaptedTable = (
  { adapted: rows }: ReportData,
  { report: { adapted, said }, record, tongue }: PaperWords,
): Block => ({
  kind: 'table',
  caption: adapted.about,
  heads: [said.what, adapted.asked, adapted.given, said.why],
  empty: adapted.none,
  rows: rows.map(({ what, askedPa, givenPa, why }) => [
    record.adapted[what],
    tongue.figure(kPaAbs(askedPa)),
    tongue.figure(kPaAbs(givenPa)),
    tongue.recorded(why),
  ]),
});
