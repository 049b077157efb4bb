/**
 * How well things are known: the dose with its guard band against the target, and one line for each
 * channel with its uncertainty and the largest contribution. Nothing is judged here.
 */

import type { BudgetLine } from '../../report/budget-line.ts';
import type { DoseResult } from '../../report/claimed-dose.ts';
import { type FieldOf, fieldWords } from '../../report/dose-part.ts';
import type { ReportData } from '../../report/report-data.ts';
import type { DoseUncertainty } from '../../report/report-dose.ts';
import { celsiusWords, doseWords, kPaAbs, lightWords } from '../../report/words.ts';
import type { Block } from '../blocks.ts';

const GAP = '\u00a0';

/** '95 %, one-sided'. */
export const coverageWords = ({ coveragePercent }: DoseUncertainty): string =>
  coveragePercent === null ? 'coverage not stated' : `${coveragePercent}${GAP}%, one-sided`;

const TARGET_WORDS = {
  profile: 'Target of the profile, at the sensor',
  'depth of the break': 'Target at the sensor, set by the depth of the break',
  'depth of the pit': 'Target at the sensor, set by the depth of the pit',
} as const;

const PORTION_WORDS = {
  'fill and pit': 'fill and pit, cured together in one exposure',
  fill: 'the fill, cured before the pit was made',
  pit: 'the pit, cured after the fill',
} as const;

const fieldNote = (field: FieldOf): string =>
  `${fieldWords(field)}; light that fell here from a neighbouring field is not counted`;

export function doseTable(dose: DoseResult): Block {
  const { uncertainty, targetJPerM2, targetSetBy, doseJPerM2, verdict, throughPitJPerM2 } = dose;
  const { atResin } = dose;
  const target = targetJPerM2 === null ? 'not stated' : doseWords(targetJPerM2);
  return {
    kind: 'fields',
    caption:
      'Met: the dose minus its expanded uncertainty reaches the target. Not met: the dose plus its expanded uncertainty stays below the target. Not shown: neither.',
    empty: '',
    rows: [
      ['Portion', PORTION_WORDS[dose.portion]],
      ...(dose.field == null ? [] : [['Field', fieldNote(dose.field)] as const]),
      ['Dose as measured at the sensor', doseWords(doseJPerM2)],
      ...(uncertainty === null
        ? [['Uncertainty', 'none stated: judged by the dose as read'] as const]
        : uncertaintyRows(uncertainty)),
      [TARGET_WORDS[targetSetBy ?? 'profile'], target],
      ...(atResin === null
        ? []
        : [
            ['Target at the resin', doseWords(atResin.targetJPerM2)] as const,
            [
              'Dose at the resin',
              `${doseWords(atResin.doseJPerM2)}, below cover film and off the axis of the lamp`,
            ] as const,
          ]),
      ['Verdict', verdict],
      ...(throughPitJPerM2 === null
        ? []
        : [
            [
              'Further light from the pit’s cure, through the pit resin',
              `${doseWords(throughPitJPerM2)}, calculated from the pit’s depth, not judged`,
            ] as const,
          ]),
    ],
  };
}

function uncertaintyRows(uncertainty: DoseUncertainty): readonly (readonly [string, string])[] {
  const { standardJPerM2, coverageFactor, expandedJPerM2, shownJPerM2 } = uncertainty;
  return [
    ['Standard uncertainty u', doseWords(standardJPerM2)],
    ['Coverage factor k', `${coverageFactor.toFixed(3)} (${coverageWords(uncertainty)})`],
    ['Guard band k u, added to the cure', doseWords(expandedJPerM2)],
    ['Dose shown to be at least', doseWords(shownJPerM2)],
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

export const budgetsTable = ({ uncertainties }: ReportData): Block => ({
  kind: 'table',
  wide: true,
  caption:
    'By JCGM 100 from the limits in the unit file, for single readings. U: 95 %, two-sided. The parts of each budget are in the settings below.',
  heads: ['Channel', 'Reading', 'Standard u', 'U (k)', 'Largest part'],
  empty: 'The unit file of this record states no uncertainties.',
  rows: uncertainties.map(({ channel, unit, value, largestPart, ...line }) => {
    const { reading, difference } = WRITERS[unit];
    return [
      channel,
      reading(value),
      difference(line.standard),
      `${difference(line.expanded)} (${line.coverageFactor.toFixed(2)})`,
      `${largestPart.name}, ${difference(largestPart.standard)}`,
    ];
  }),
});
