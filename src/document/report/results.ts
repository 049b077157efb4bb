/**
 * What was reached: the cycles as run, extremes against the profile's limits, and values measured
 * once. Pressures are absolute, followed by the gauge reading where the job's zero is known.
 */

import type { LimitRow } from '../../report/limit-rows.ts';
import type { ReportData } from '../../report/report-data.ts';
import {
  celsiusWords,
  clockWords,
  kPaAbs,
  leakWords,
  measuredWords,
  pressureWords,
  secondsWords,
} from '../../report/words.ts';
import { type Block, GRADE_MARKS } from '../blocks.ts';

export function cyclesTable({ cycles, atmospherePa }: ReportData): Block {
  const extreme = (pa: number | null): string => (pa === null ? 'not known' : kPaAbs(pa));
  return {
    kind: 'table',
    wide: true,
    caption:
      'Cycles as run. Reached: at the end of the dwell. The vacuum time includes the question about bubbles.',
    heads: ['Cycle', 'Vacuum reached', 'Lowest', 'For', 'Pressure reached', 'Highest', 'For'],
    empty: 'No cycle was begun.',
    rows: cycles.map((row) => [
      String(row.cycle),
      pressureWords(row.vacuumReachedPa, atmospherePa),
      extreme(row.lowestPa),
      secondsWords(row.vacuumHeldS),
      pressureWords(row.pressureReachedPa, atmospherePa),
      extreme(row.highestPa),
      secondsWords(row.pressureHeldS),
    ]),
  };
}

const LIMIT_WRITERS: Readonly<Record<LimitRow['unit'], (value: number) => string>> = {
  Pa: kPaAbs,
  K: celsiusWords,
  'Pa m3/s': leakWords,
  s: secondsWords,
};

export const limitsTable = ({ limits }: ReportData): Block => ({
  kind: 'table',
  caption:
    'Measured while the job was running; glass temperature while air and resin were worked and while the lamp was on.',
  heads: ['What', 'Seen', 'Allowed', 'Verdict'],
  empty: 'No limits are stated.',
  rows: limits.map((row) => [
    row.what,
    seenWords(row),
    allowedWords(row),
    row.within === null
      ? 'not judged'
      : row.within
        ? `${GRADE_MARKS.good} within`
        : `${GRADE_MARKS.bad} OUTSIDE`,
  ]),
});

function seenWords({ lowestSeen, highestSeen, unit }: LimitRow): string {
  if (lowestSeen === null || highestSeen === null) return 'not measured';
  const [low, high] = [LIMIT_WRITERS[unit](lowestSeen), LIMIT_WRITERS[unit](highestSeen)];
  return low === high ? low : `${low} to ${high}`;
}

function allowedWords({ lowestAllowed, highestAllowed, unit }: LimitRow): string {
  const write = LIMIT_WRITERS[unit];
  if (lowestAllowed === null && highestAllowed === null) return 'not stated';
  if (lowestAllowed === null) return `at most ${write(highestAllowed ?? 0)}`;
  if (highestAllowed === null) return `at least ${write(lowestAllowed)}`;
  return `${write(lowestAllowed)} to ${write(highestAllowed)}`;
}

export const measuredTable = ({ measured }: ReportData): Block => ({
  kind: 'table',
  heads: ['At, min:s', 'What', 'Value'],
  empty: 'Nothing was measured.',
  rows: measured.map(({ atS, ...row }) => {
    const { label, value } = measuredWords(row);
    return [clockWords(atS), label, value];
  }),
});
