import { describe, expect, test } from 'vitest';
import DEFAULT_UNIT_FILE from '../../src/app/defaults/unit.json' with { type: 'json' };
import { budgetLinesOf } from '../../src/app/papers/journal-budgets.ts';
import type { Event, HoldReason, UnstampedEvent } from '../../src/core/events.ts';
import { readJournal } from '../../src/journal/read-journal.ts';
import { type ReportData, reportDataOf } from '../../src/report/report-data.ts';
import { pressureBudget } from '../../src/signal/pressure-budget.ts';
import { DEFAULT_UNIT } from '../configs.ts';
import {
  alarmEvent,
  at,
  GOOD_JOB,
  HELD_JOB,
  journalOf,
  PROFILE,
  STOPPED,
  type Telling,
} from './job-story.ts';

function reportOf(text: string): ReportData {
  const read = readJournal(text, 'demo.jsonl');
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return reportDataOf(read.value, budgetLinesOf(read.value));
}

const without = (events: readonly Event[], drop: (event: Event) => boolean): readonly Event[] =>
  events.filter((event) => !drop(event));
/** The good job with other measured values. */
const withMeasured = (values: Readonly<Record<string, number>>): readonly Event[] =>
  GOOD_JOB.map((event) =>
    event.kind === 'measured' ? { ...event, value: values[event.name] ?? event.value } : event,
  );
const isMeasured = (event: Event, name: string): boolean =>
  event.kind === 'measured' && event.name === name;

describe('the verdict on the process', () => {
  test('rests on limits that were kept and a dose that is met', () => {
    const { verdict, dose, outcome, interrupted, limits } = reportOf(journalOf(GOOD_JOB));
    expect(verdict).toEqual({ process: 'process within its limits', grade: 'good' });
    expect(dose).toMatchObject({ verdict: 'met', doseJPerM2: 60_200, targetJPerM2: 60_000 });
    expect(limits.map(({ what, within }) => [what, within])).toEqual([
      ['chamber pressure', true],
      ['glass temperature', true],
      ['seal leak', true],
      ['lamp on', true],
    ]);
    expect([outcome, interrupted]).toEqual(['clear', false]);
  });

  test('is kept by a warning', () => {
    const warned = [...GOOD_JOB, at(150, alarmEvent('lamp-weak', 'warn'))];
    expect(reportOf(journalOf(warned)).verdict).toEqual({
      process: 'process within its limits',
      grade: 'good',
    });
  });

  test.each([
    ['the dose was not stated', { events: without(GOOD_JOB, (e) => isMeasured(e, 'doseJPerM2')) }],
    [
      'the dose is a joule short, with its uncertainty added',
      { events: withMeasured({ doseJPerM2: 59_799 }) },
    ],
    ['the chamber went under the lowest vacuum', { lowestPa: 14_999 }],
    ['the glass went over its highest', { glassK: 313.16 }],
  ])('is never good where %s', (_, change) => {
    const { events = GOOD_JOB, ...telling } = change as { events?: readonly Event[] } & Telling;
    const { verdict } = reportOf(journalOf(events, telling));
    expect(verdict).toEqual({ process: 'process outside its limits', grade: 'bad' });
  });

  test.each([
    ['stopped-by-person', 'caution'],
    ['alarm', 'bad'],
    ['interrupted', 'bad'],
    ['fault', 'bad'],
  ] as const)('is "not completed" after an end by %s', (reason, grade) => {
    const text = journalOf(STOPPED, { end: { reason, why: 'demo', outcome: null } });
    expect(reportOf(text).verdict).toEqual({ process: 'process not completed', grade });
  });

  test('is withheld where the journal was changed', () => {
    const changed = journalOf(GOOD_JOB).replace('"pressurePa":25000', '"pressurePa":26000');
    expect(changed).not.toBe(journalOf(GOOD_JOB));
    expect(reportOf(changed).verdict.process).toBe('record changed, process not judged');
  });

  test('is withheld, and the record called incomplete, where the journal has no end', () => {
    const text = journalOf(GOOD_JOB);
    const cut = reportOf(text.slice(0, text.lastIndexOf('{"end"')));
    expect(cut).toMatchObject({ interrupted: true, end: { reason: 'interrupted' }, outcome: null });
    // Nobody can say that it was not completed either.
    expect(cut.verdict).toEqual({ process: 'record incomplete, process not judged', grade: 'bad' });
  });
});

describe('a record that breaks off', () => {
  const cutAfter = (last: string) => {
    const text = journalOf(GOOD_JOB, { doseJPerM2: 0 });
    const at = text.indexOf(last);
    expect(at).toBeGreaterThan(0);
    return reportOf(text.slice(0, text.indexOf('\n', at) + 1));
  };

  test('before the dose was stated says nothing of the cure, neither that there was none', () => {
    const { dose, verdict } = cutAfter('"phase":"ask-clear"');
    expect([dose.verdict, verdict.grade]).toEqual(['not recorded', 'bad']);
  });

  test('after the dose was stated shows that dose, and is no better for it', () => {
    const { dose, verdict, outcome } = cutAfter('"name":"irradianceMeanWPerM2"');
    expect([dose.verdict, outcome]).toEqual(['met', null]);
    expect(verdict).toEqual({ process: 'record incomplete, process not judged', grade: 'bad' });
  });
});

describe('the dose', () => {
  test('is not met in a cure that was broken off, and not cured without light', () => {
    const text = journalOf(STOPPED, { doseJPerM2: 12_000 });
    expect(reportOf(text).dose).toMatchObject({ verdict: 'not met', doseJPerM2: 12_000 });
    expect(reportOf(journalOf(STOPPED)).dose.verdict).toBe('not cured');
  });

  test.each([
    ['met', 60_200],
    ['not shown', 60_199],
    ['not shown', 59_800],
    ['not met', 59_799],
  ])('is %s at %d J/m2, with 100 J/m2 of uncertainty counted twice', (verdict, doseJPerM2) => {
    const { dose } = reportOf(journalOf(withMeasured({ doseJPerM2 })));
    expect(dose).toMatchObject({
      verdict,
      uncertainty: {
        standardJPerM2: 100,
        coverageFactor: 2,
        coveragePercent: 95,
        expandedJPerM2: 200,
        shownJPerM2: doseJPerM2 - 200,
      },
    });
  });

  test('that is not shown to be met makes no good process, and worse things come first', () => {
    const events = withMeasured({ doseJPerM2: 60_199 });
    expect(reportOf(journalOf(events)).verdict).toEqual({
      process: 'dose not shown to be met',
      grade: 'bad',
    });
    expect(reportOf(journalOf(events, { glassK: 313.16 })).verdict.process).toBe(
      'process outside its limits',
    );
  });

  test.each([
    ['not shown', 60_000],
    ['not met', 59_999],
  ])('is %s at %d J/m2 in an older journal, which states no uncertainty', (verdict, value) => {
    const older = without(
      withMeasured({ doseJPerM2: value }),
      (e) => isMeasured(e, 'doseUncertaintyJPerM2') || isMeasured(e, 'doseCoverageFactor'),
    );
    const { dose, uncertainties } = reportOf(journalOf(older, { unit: {} }));
    expect(dose).toMatchObject({ verdict, uncertainty: null });
    expect(uncertainties).toEqual([]);
  });

  test('is not shown where the cure was broken off over the target but short of the margin', () => {
    expect(reportOf(journalOf(STOPPED, { doseJPerM2: 60_000 })).dose.verdict).toBe('not shown');
    expect(reportOf(journalOf(STOPPED, { doseJPerM2: 59_999 })).dose.verdict).toBe('not met');
    const older = journalOf(STOPPED, { doseJPerM2: 60_000, unit: {} });
    expect(reportOf(older).dose.verdict).toBe('not met');
  });

  test('is never met where the profile states no target', () => {
    const { cure: _, ...profile } = PROFILE;
    const { dose } = reportOf(journalOf(GOOD_JOB, { profile }));
    expect(dose).toMatchObject({ verdict: 'not met', targetJPerM2: null });
  });
});

describe('the uncertainties of the channels', () => {
  test('are those of the unit file at the values of the job, with their largest part', () => {
    const { uncertainties } = reportOf(journalOf(GOOD_JOB, { unit: DEFAULT_UNIT_FILE }));
    expect(uncertainties.map(({ channel, unit, value }) => [channel, unit, value])).toEqual([
      ['pressure', 'Pa', 25_100],
      ['pressure', 'Pa', 238_000],
      ['glass temperature', 'K', 296.15],
      ['irradiance', 'W/m2', 1505],
    ]);
    const { channels, uncertainty } = DEFAULT_UNIT;
    const [vacuum] = uncertainties;
    const budget = pressureBudget(25_100, channels, uncertainty);
    expect(vacuum).toMatchObject({
      standard: budget.standard,
      expanded: (vacuum?.coverageFactor ?? 0) * budget.standard,
      largestPart: { name: 'offset' },
    });
    expect(vacuum?.coverageFactor).toBeCloseTo(1.96, 2);
  });
});

describe('the timeline', () => {
  test('gives each cycle its own values and counts no held time as dwell', () => {
    const { cycles, holds, phases } = reportOf(journalOf(HELD_JOB));
    // Vacuum from 20, held from 30 to 39, again to 50; asked from 50 to 55.
    expect(cycles).toEqual([
      {
        cycle: 1,
        vacuumReachedPa: 25_100,
        lowestPa: 25_000,
        vacuumHeldS: 10 + 11 + 5,
        pressureReachedPa: 238_000,
        highestPa: 238_000,
        pressureHeldS: 40,
      },
    ]);
    expect(holds).toEqual([{ fromS: 30, toS: 39, why: 'demo hold', reasons: [], resumed: true }]);
    expect(phases.every(({ fromS, toS }) => toS >= fromS)).toBe(true);
    expect(phases.at(-1)).toMatchObject({ phase: 'result', toS: 200 });
  });
});

test('a hold keeps the reasons that a person gave in it, and no other hold has them', () => {
  const hold = (fromS: number, ...reasons: readonly HoldReason[]): readonly Event[] => [
    at(fromS, { kind: 'batch', from: 'running', to: 'holding', why: 'HOLD was pressed.' }),
    ...reasons.map((reason, i) =>
      at(fromS + 3 + i, { kind: 'hold-reason', phase: 'evacuate', reason }),
    ),
    at(fromS + 8, { kind: 'batch', from: 'restarting', to: 'running', why: 'demo' }),
  ];
  const { holds } = reportOf(
    journalOf([...hold(160), ...hold(170, 'resin-inside', 'something-else'), ...hold(180)]),
  );
  expect(holds.map(({ reasons }) => reasons)).toEqual([[], ['resin-inside', 'something-else'], []]);
});

describe('the alarms', () => {
  const rowsOf = (...steps: readonly UnstampedEvent[]) =>
    reportOf(journalOf([...GOOD_JOB, ...steps.map((step, i) => at(160 + i, step))])).alarms;
  const raised = alarmEvent('leak', 'warn');
  const step = (
    from: 'unacknowledged' | 'acknowledged' | 'returned-unacknowledged' | 'latched',
    to: 'acknowledged' | 'returned-unacknowledged' | 'latched' | 'normal' | 'unacknowledged',
  ) => ({ ...raised, from, to }) as UnstampedEvent;

  test('become one row each with the times of seen, gone and over', () => {
    expect(
      rowsOf(raised, step('unacknowledged', 'acknowledged'), step('acknowledged', 'normal')),
    ).toMatchObject([
      { alarm: 'leak', raisedAtS: 160, acknowledgedAtS: 161, returnedAtS: 162, clearedAtS: 162 },
    ]);
  });

  test('that returned unseen and rose again are one row until they are seen', () => {
    const back = step('unacknowledged', 'returned-unacknowledged');
    const again = step('returned-unacknowledged', 'unacknowledged');
    expect(rowsOf(raised, back)).toMatchObject([{ returnedAtS: 161, clearedAtS: null }]);
    expect(rowsOf(raised, back, again)).toMatchObject([
      { returnedAtS: null, acknowledgedAtS: null, clearedAtS: null },
    ]);
  });

  test('that latched and rose again are two rows', () => {
    const rows = rowsOf(
      raised,
      step('unacknowledged', 'latched'),
      step('latched', 'unacknowledged'),
    );
    expect(rows).toMatchObject([
      { raisedAtS: 160, acknowledgedAtS: 161 },
      { raisedAtS: 162, acknowledgedAtS: null },
    ]);
  });
});

test('report data survives JSON unchanged', () => {
  const data = reportOf(journalOf(GOOD_JOB));
  expect(JSON.parse(JSON.stringify(data))).toEqual(data);
});
