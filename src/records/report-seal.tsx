/**
 * The tests of the seal, each with its finding, and the vacuum that the local atmosphere allowed.
 */
import type { SealFinding } from '../events.ts';
import type { ReportData } from './report-data.ts';
import { Table } from './report-table.tsx';
import { clockWords, kPaAbs, leakWords, plainWords, risePaWords } from './report-words.ts';

interface Props {
  readonly data: ReportData;
}

const FINDING_WORDS: Readonly<Record<SealFinding, string>> = {
  tight: 'tight: the seal holds',
  leak: 'leak: air comes in',
  moisture: 'moisture: the break is wet',
  outgassing: 'outgassing: what clings to glass and resin',
  unclear: 'unclear',
};

export function SealTable({ data: { sealTests } }: Props) {
  const or = (value: number | null, write: (value: number) => string, none: string): string =>
    value === null ? none : write(value);
  return (
    <Table
      wide
      caption="Seal tests: pump and vent closed off, the rise of the pressure watched. The range holds 95 % by the scatter of the samples; the volume's own share is not in it. Level: height at which a rise ended, over the pressure at isolation."
      heads={['At, min:s', 'Finding', 'Because', 'Leak rate', 'Give or take', 'Level']}
      empty="The seal was not tested."
      rows={sealTests.map((row) => [
        clockWords(row.atS),
        FINDING_WORDS[row.finding],
        row.why,
        or(row.leakRatePaM3PerS, leakWords, 'not known'),
        or(row.leakRateUncertaintyPaM3PerS, leakWords, 'not known'),
        or(row.risePlateauPa, risePaWords, 'none'),
      ])}
    />
  );
}

/** Nothing where the profile was run as it stands. */
export function AdaptedTable({ data: { adapted } }: Props) {
  if (adapted.length === 0) return null;
  return (
    <Table
      caption="Changed for the local atmosphere"
      heads={['What', 'Asked', 'Given', 'Why']}
      empty=""
      rows={adapted.map(({ what, askedPa, givenPa, why }) => [
        plainWords(what),
        kPaAbs(askedPa),
        kPaAbs(givenPa),
        why,
      ])}
    />
  );
}
