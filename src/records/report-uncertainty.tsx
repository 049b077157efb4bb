/**
 * How well things are known: the dose with its guard band against the target, and one line for each
 * channel with its uncertainty and what makes most of it. Nothing is judged here.
 */
import type { BudgetLine } from './report-budget-line.ts';
import type { ReportData } from './report-data.ts';
import type { DoseUncertainty } from './report-dose.ts';
import { Table } from './report-table.tsx';
import { celsiusWords, doseWords, kPaAbs, lightWords } from './report-words.ts';

interface Props {
  readonly data: ReportData;
}

const GAP = '\u00a0';

/** '95 %, one-sided'. */
export const coverageWords = ({ coveragePercent }: DoseUncertainty): string =>
  coveragePercent === null ? 'coverage not stated' : `${coveragePercent}${GAP}%, one-sided`;

const TARGET_WORDS = {
  profile: 'Target of the profile',
  'depth of the break': 'Target, set by the depth of the break',
} as const;

export function DoseTable({ data: { dose } }: Props) {
  const { uncertainty, targetJPerM2, targetSetBy, doseJPerM2, verdict } = dose;
  const target = targetJPerM2 === null ? 'not stated' : doseWords(targetJPerM2);
  return (
    <Table
      fields
      caption="Met: the dose less its expanded uncertainty is at or over the target. Not met: with it added, the dose is still under. Not shown: neither."
      heads={['Dose against its target', 'Value']}
      empty=""
      rows={[
        ['Dose as measured', doseWords(doseJPerM2)],
        ...(uncertainty === null
          ? [['Uncertainty', 'none is stated: judged by the dose as it was read'] as const]
          : uncertaintyRows(uncertainty)),
        [TARGET_WORDS[targetSetBy ?? 'profile'], target],
        ['Verdict', verdict],
      ]}
    />
  );
}

function uncertaintyRows(uncertainty: DoseUncertainty): readonly (readonly [string, string])[] {
  const { standardJPerM2, coverageFactor, expandedJPerM2, shownJPerM2 } = uncertainty;
  return [
    ['Standard uncertainty u', doseWords(standardJPerM2)],
    ['Coverage factor k', `${coverageFactor.toFixed(3)} (${coverageWords(uncertainty)})`],
    ['Guard band k u, added to the cure for its uncertainty', doseWords(expandedJPerM2)],
    ['Shown to be at least', doseWords(shownJPerM2)],
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

export function BudgetsTable({ data: { uncertainties } }: Props) {
  return (
    <Table
      wide
      caption="By JCGM 100 from the limits in the unit file, for single readings. U: 95 %, both sides. Parts of a budget are in the settings below."
      heads={['Channel', 'Reading', 'Standard u', 'U (k)', 'Most of it from']}
      empty="The unit file of this record states no uncertainties."
      rows={uncertainties.map(({ channel, unit, value, largestPart, ...line }) => {
        const { reading, difference } = WRITERS[unit];
        return [
          channel,
          reading(value),
          difference(line.standard),
          `${difference(line.expanded)} (${line.coverageFactor.toFixed(2)})`,
          `${largestPart.name}, ${difference(largestPart.standard)}`,
        ];
      })}
    />
  );
}
