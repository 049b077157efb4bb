/**
 * How well things are known: the dose with its guard band against the target, and one line for each
 * channel with its uncertainty and the largest contribution. Nothing is judged here.
 */

import { filled } from '../../core/phrases.ts';
import type { BudgetLine } from '../../report/budget-line.ts';
import type { DoseResult } from '../../report/claimed-dose.ts';
import type { ReportData } from '../../report/report-data.ts';
import type { DoseUncertainty } from '../../report/report-dose.ts';
import { celsiusWords, doseWords, kPaAbs, lightWords, nameIn } from '../../report/words.ts';
import type { Block } from '../blocks.ts';
import type { PaperWords } from '../paper-words.ts';
import { fieldText } from './field-text.ts';

const GAP = '\u00a0';

type Row = readonly [label: string, value: string];

/** '95 %, one-sided'. */
export const coverageText = (
  { coveragePercent }: DoseUncertainty,
  { report: { dose } }: PaperWords,
): string =>
  coveragePercent === null
    ? dose.noCoverage
    : filled(dose.coverage, { percent: String(coveragePercent) });

export function doseTable(result: DoseResult, words: PaperWords): Block {
  const { report, tongue } = words;
  const { dose, portions, doseVerdict, said } = report;
  const { uncertainty, targetJPerM2, targetSetBy, doseJPerM2, field = null } = result;
  const written = (jPerM2: number): string => tongue.figure(doseWords(jPerM2));
  const note = field === null ? null : filled(dose.fieldNote, { field: fieldText(field, words) });
  return {
    kind: 'fields',
    caption: dose.about,
    empty: '',
    rows: [
      [dose.portion, portions[result.portion].what],
      ...(note === null ? [] : [[dose.field, note] as const]),
      [dose.measured, written(doseJPerM2)],
      ...(uncertainty === null
        ? [[dose.uncertainty, dose.noUncertainty] as const]
        : uncertaintyRows(uncertainty, words)),
      [
        dose.targetOf[targetSetBy ?? 'profile'],
        targetJPerM2 === null ? said.notStated : written(targetJPerM2),
      ],
      ...atResinRows(result, words),
      [dose.verdict, doseVerdict[result.verdict]],
      ...throughPitRows(result, words),
    ],
  };
}

function atResinRows(
  { atResin }: DoseResult,
  { report: { dose }, tongue }: PaperWords,
): readonly Row[] {
  if (atResin === null) return [];
  const [target, reached] = [atResin.targetJPerM2, atResin.doseJPerM2].map((jPerM2) =>
    tongue.figure(doseWords(jPerM2)),
  ) as [string, string];
  return [
    [dose.targetAtResin, target],
    [dose.doseAtResin, filled(dose.belowFilm, { dose: reached })],
  ];
}

const throughPitRows = (
  { throughPitJPerM2 }: DoseResult,
  { report: { dose }, tongue }: PaperWords,
): readonly Row[] =>
  throughPitJPerM2 === null
    ? []
    : [
        [
          dose.throughPit,
          filled(dose.throughPitNote, { dose: tongue.figure(doseWords(throughPitJPerM2)) }),
        ],
      ];

function uncertaintyRows(uncertainty: DoseUncertainty, words: PaperWords): readonly Row[] {
  const { standardJPerM2, coverageFactor, expandedJPerM2, shownJPerM2 } = uncertainty;
  const { report, tongue } = words;
  const { dose } = report;
  const written = (jPerM2: number): string => tongue.figure(doseWords(jPerM2));
  const factor = {
    k: tongue.figure(coverageFactor.toFixed(3)),
    coverage: coverageText(uncertainty, words),
  };
  return [
    [dose.standard, written(standardJPerM2)],
    [dose.factor, filled(dose.factorOf, factor)],
    [dose.guard, written(expandedJPerM2)],
    [dose.least, written(shownJPerM2)],
  ];
}

/** Two digits, as JCGM 100, 7.2.6 has it. */
const twoDigits = (value: number): string => String(Number(value.toPrecision(2)));

interface Writer {
  readonly reading: (value: number) => string;
  readonly difference: (value: number) => string;
}

const WRITERS: Readonly<Record<BudgetLine['unit'], Writer>> = {
  Pa: { reading: kPaAbs, difference: (pa) => `${twoDigits(pa)}${GAP}Pa` },
  K: { reading: celsiusWords, difference: (k) => `${twoDigits(k)}${GAP}K` },
  'W/m2': { reading: lightWords, difference: (w) => `${twoDigits(w / 10)}${GAP}mW/cm²` },
};

export const budgetsTable = (
  { uncertainties }: ReportData,
  { report: { budgets }, tongue }: PaperWords,
): Block => ({
  kind: 'table',
  wide: true,
  caption: budgets.about,
  heads: [budgets.channel, budgets.reading, budgets.standard, budgets.expanded, budgets.largest],
  empty: budgets.none,
  rows: uncertainties.map(({ channel, unit, value, largestPart, ...line }) => {
    const { reading, difference } = WRITERS[unit];
    const share = `${nameIn(budgets.parts, largestPart.name)}, ${difference(largestPart.standard)}`;
    return [
      budgets.channels[channel],
      tongue.figure(reading(value)),
      tongue.figure(difference(line.standard)),
      tongue.figure(`${difference(line.expanded)} (${line.coverageFactor.toFixed(2)})`),
      tongue.figure(share),
    ];
  }),
});
