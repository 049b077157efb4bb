/** A dose is judged by what the interruptions of the lamp show of it, not by what was counted. */
import { expect, test } from 'vitest';
import type { Event } from '../../src/core/events.ts';
import type { CureMeasurement } from '../../src/core/measurements.ts';
import { readJournal } from '../../src/journal/read-journal.ts';
import { reportDataOf } from '../../src/report/report-data.ts';
import { at, GOOD_JOB, journalOf } from './job-story.ts';

/** The good job counts 60.2 kJ/m2 with 200 J/m2 of doubt, for a target of 60. */
function doseWith(values: Partial<Record<CureMeasurement, number>>) {
  const stated = Object.entries(values).map(
    ([name, value]): Event =>
      at(150, { kind: 'measured', name: name as CureMeasurement, portion: null, value }),
  );
  const end = GOOD_JOB.findIndex(({ kind, timeS }) => kind === 'phase' && timeS === 150);
  const told = [...GOOD_JOB.slice(0, end), ...stated, ...GOOD_JOB.slice(end)];
  const read = readJournal(journalOf(told), 'demo.jsonl');
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return reportDataOf(read.value, []).dose;
}

test.each([
  ['met', 60_000],
  ['not shown', 59_999],
  ['not shown', 0],
] as const)(
  'it is %s where %d J/m2 are shown of a count that would be enough',
  (verdict, shown) => {
    const dose = doseWith({ shownDoseJPerM2: shown });
    expect([dose.verdict, dose.uncertainty?.shownJPerM2]).toEqual([verdict, shown]);
  },
);

test.each([
  ['met', 500, []],
  ['not shown', 501, ['light-unconfirmed']],
] as const)(
  'it is %s where the lamp’s known output does not bear out %d J/m2 of 60.5 kJ/m2',
  (verdict, value, objections) => {
    const dose = doseWith({ shownDoseJPerM2: 60_500, unconfirmedDoseJPerM2: value });
    expect(dose.verdict).toBe(verdict);
    expect(dose.objections).toEqual(objections);
  },
);
