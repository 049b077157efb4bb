/**
 * What was reached: the cycles as run, extremes against the profile's limits, and values measured
 * once. Pressures are absolute, followed by the gauge reading where the job's zero is known.
 */

import { filled } from '../../core/phrases.ts';
import type { LimitRow } from '../../report/limit-rows.ts';
import type { ReportData } from '../../report/report-data.ts';
import type { MeasuredRow } from '../../report/timeline.ts';
import {
  capital,
  celsiusWords,
  clockWords,
  kPaAbs,
  leakWords,
  measuredValue,
  pressureWords,
  secondsWords,
} from '../../report/words.ts';
import { type Block, GRADE_MARKS } from '../blocks.ts';
import type { PaperWords } from '../paper-words.ts';

export function cyclesTable(
  { cycles: rows, atmospherePa }: ReportData,
  { report: { cycles, said }, tongue }: PaperWords,
): Block {
  const extreme = (pa: number | null): string =>
    pa === null ? said.notKnown : tongue.figure(kPaAbs(pa));
  const reached = (pa: number | null): string =>
    pa === null ? said.noDwell : tongue.figure(pressureWords(pa, atmospherePa));
  return {
    kind: 'table',
    wide: true,
    caption: cycles.about,
    heads: [
      cycles.cycle,
      cycles.vacuum,
      cycles.lowest,
      cycles.for,
      cycles.pressure,
      cycles.highest,
      cycles.for,
    ],
    empty: cycles.none,
    rows: rows.map((row) => [
      String(row.cycle),
      reached(row.vacuumReachedPa),
      extreme(row.lowestPa),
      secondsWords(row.vacuumHeldS),
      reached(row.pressureReachedPa),
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

export const limitsTable = ({ limits: rows }: ReportData, words: PaperWords): Block => {
  const { limits, said } = words.report;
  return {
    kind: 'table',
    caption: limits.about,
    heads: [said.what, limits.seen, limits.allowed, limits.verdict],
    empty: limits.none,
    rows: rows.map((row) => [
      limits.what[row.what],
      seenText(row, words),
      allowedText(row, words),
      row.within === null
        ? said.notJudged
        : row.within
          ? `${GRADE_MARKS.good} ${limits.within}`
          : `${GRADE_MARKS.bad} ${limits.outside}`,
    ]),
  };
};

function seenText(
  { lowestSeen, highestSeen, unit }: LimitRow,
  { report: { said }, tongue }: PaperWords,
): string {
  if (lowestSeen === null || highestSeen === null) return said.notMeasured;
  const [low, high] = [lowestSeen, highestSeen].map((value) =>
    tongue.figure(LIMIT_WRITERS[unit](value)),
  ) as [string, string];
  return low === high ? low : filled(said.range, { low, high });
}

function allowedText(
  { lowestAllowed, highestAllowed, unit }: LimitRow,
  { report: { said }, tongue }: PaperWords,
): string {
  const write = (value: number): string => tongue.figure(LIMIT_WRITERS[unit](value));
  if (lowestAllowed === null) {
    return highestAllowed === null
      ? said.notStated
      : filled(said.atMost, { value: write(highestAllowed) });
  }
  return highestAllowed === null
    ? filled(said.atLeast, { value: write(lowestAllowed) })
    : filled(said.range, { low: write(lowestAllowed), high: write(highestAllowed) });
}

export const measuredTable = ({ measured: rows }: ReportData, words: PaperWords): Block => {
  const { said, measured } = words.report;
  return {
    kind: 'table',
    heads: [said.at, said.what, measured.value],
    empty: measured.none,
    rows: rows.map((row) => [
      clockWords(row.atS),
      measuredText(row, words),
      words.tongue.figure(measuredValue(row.name, row.value)),
    ]),
  };
};

/** 'Dose', or 'Pit: dose' where it was cured apart. */
function measuredText(
  { name, portion }: MeasuredRow,
  { report: { measured }, record }: PaperWords,
): string {
  const of = portion ?? 'fill';
  const place = { place: record.places[of], resin: record.resins[of] };
  const what = filled(measured.names[name], place);
  return portion === null ? capital(what) : filled(measured.of[portion], { what });
}
