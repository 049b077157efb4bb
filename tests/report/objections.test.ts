import { describe, expect, test } from 'vitest';
import type { Event } from '../../src/core/events.ts';
import { verdictHeadline } from '../../src/document/report/reservation-rows.ts';
import { readJournal } from '../../src/journal/read-journal.ts';
import { type ReportData, reportDataOf } from '../../src/report/report-data.ts';
import { alarmEvent, at, GOOD_JOB, journalOf, STOPPED, type Telling } from './job-story.ts';

function reportOf(events: readonly Event[], telling: Telling): ReportData {
  const read = readJournal(journalOf(events, telling), 'demo.jsonl');
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return reportDataOf(read.value, []);
}

const BOTTLE = {
  name: 'demo resin',
  lot: 'demo-lot-7',
  glass: { lowestC: 12, highestC: 40 },
  expiresOn: '2000-12-31',
  openedOn: '2000-01-01',
  usableAfterOpeningDays: 31,
};
const ALLOWED = { answer: 'allowed', ruleSets: [], reasons: [], technical: { answer: 'can' } };
const SHEET = {
  lookedOn: '2000-01-20',
  damage: { moisture: 'dry' },
  conditions: { airKPa: 100.6 },
};

/** A good job of 2000-01-20 with everything in order. */
const ABOUT = {
  day: '2000-01-20',
  resin: BOTTLE,
  pitResin: null,
  intake: { sheet: SHEET, assessment: ALLOWED },
  overrides: [],
};
const JOB = { glassC: 23 };
const RULE = {
  words: 'no repair before the driver',
  ruleSet: 'Demo rules',
  edition: 'edition of 1999',
  measured: 'star-break',
};

const assessed = (assessment: object) => ({
  ...ABOUT,
  intake: { sheet: SHEET, assessment: { ...ALLOWED, ...assessment } },
});
const setAside = (item: string, ...against: readonly string[]) => ({
  ...ABOUT,
  overrides: [{ item, reason: 'demo reason', against }],
});
const moisture = at(10, { kind: 'seal-finding', finding: 'moisture', why: 'Levels like water' });
const asked = at(2.1, { kind: 'phase', phase: 'job-sheet', cycle: 0 });
const sheetAsked = GOOD_JOB.flatMap((event) =>
  event.kind === 'phase' && event.phase === 'seal-watch'
    ? [asked, { ...event, timeS: 9 }]
    : [event],
);
const pressedOn = at(55, { kind: 'answer', phase: 'bubbles-stay', answer: 'yes' });

interface Case {
  readonly about?: object;
  readonly events?: readonly Event[];
  readonly telling?: Telling;
  readonly headline: string;
  readonly support: string;
}

const CASES: Readonly<Record<string, Case>> = {
  'resin a day past its date': {
    about: { ...ABOUT, day: '2001-01-01', resin: { ...BOTTLE, openedOn: null } },
    headline: 'the resin was past its date',
    support: 'demo resin, lot demo-lot-7: expired on 2000-12-31, used on 2001-01-01',
  },
  'resin open a day too long': {
    about: { ...ABOUT, day: '2000-02-02' },
    headline: 'the resin was past its date',
    support:
      'demo resin, lot demo-lot-7: opened on 2000-01-01, usable for 31 days from then, used on 2000-02-02',
  },
  'pit resin a day past its date': {
    about: {
      ...ABOUT,
      pitResin: { ...BOTTLE, name: 'demo pit resin', expiresOn: '2000-01-19', openedOn: null },
    },
    headline: 'the pit resin was past its date',
    support: 'demo pit resin, lot demo-lot-7: expired on 2000-01-19, used on 2000-01-20',
  },
  'rules that do not allow it': {
    about: assessed({ answer: 'not-allowed-here', reasons: [RULE] }),
    headline: 'the rules chosen do not allow it',
    support: 'Demo rules, edition of 1999: no repair before the driver: star-break',
  },
  'rules that leave it to a person': {
    about: assessed({ answer: 'needs-a-person', reasons: [RULE] }),
    headline: 'the rules chosen left it to a person',
    support: 'Demo rules, edition of 1999: no repair before the driver: star-break',
  },
  'damage of a kind that speaks against it': {
    about: assessed({ technical: { answer: 'cannot', reasons: ['Dirt stays in the break.'] } }),
    headline: 'the kind of damage is unsuited to a repair',
    support: 'Dirt stays in the break.',
  },
  'a check of the resin set aside': {
    about: setAside('resin', 'demo resin: too thick'),
    headline: 'a check of the resin was set aside',
    support: 'demo resin: too thick',
  },
  'care of the unit set aside': {
    about: setAside('cleaning', 'cleaning: done on 1999-10-01, due 1999-11-01'),
    headline: 'a check of the unit was set aside',
    support: 'cleaning: done on 1999-10-01, due 1999-11-01',
  },
  'a check set aside in a journal that does not say what stood against it': {
    about: { ...ABOUT, overrides: [{ item: 'o-ring', reason: 'demo reason' }] },
    headline: 'a check of the unit was set aside',
    support: 'o ring: demo reason',
  },
  'a break that was stated dry and found wet': {
    events: [moisture, ...GOOD_JOB],
    headline: 'the break was stated to be dry and was found wet',
    support: 'intake sheet: dry; seal test at 0:10 min found moisture: Levels like water',
  },
  'glass colder than its resin allows': {
    about: { ...ABOUT, resin: { ...BOTTLE, glass: { lowestC: 25, highestC: 40 } } },
    headline: 'the glass was too cold or too hot for the resin',
    support:
      'glass 23.0 to 23.0 °C while demo resin, lot demo-lot-7, was worked; it allows 25.0 to 40.0 °C',
  },
  'glass that was stated 6 K warmer than it was': {
    events: sheetAsked,
    telling: { job: { glassC: 29 } },
    headline: 'glass or air were not as stated',
    support: 'glass: stated 29.0 °C; measured 23.0 °C',
  },
  'air that was stated 3 kPa lower than it was': {
    about: {
      ...ABOUT,
      intake: { assessment: ALLOWED, sheet: { ...SHEET, conditions: { airKPa: 97.6 } } },
    },
    headline: 'glass or air were not as stated',
    support: 'air: stated 97.6 kPa abs; measured 100.6 kPa abs',
  },
  'resin pressed in although bubbles still rose': {
    events: [...GOOD_JOB, pressedOn],
    headline: 'bubbles still rose when the resin was pressed in',
    support: 'at 0:55 min the longest vacuum was over, bubbles still rose, and a person went on',
  },
};

const plain = (text: string): string => text.replaceAll('\u00a0', ' ');
const told = ({ about = ABOUT, events = GOOD_JOB, telling = {} }: Partial<Case>): ReportData =>
  reportOf(events, { job: JOB, about, ...telling });

describe('a repair within its limits', () => {
  test('is good where nothing stands against it', () => {
    const report = told({ events: sheetAsked });
    expect(report.reservations).toEqual([]);
    expect(report.verdict).toEqual({ process: 'process within its limits', grade: 'good' });
    expect(verdictHeadline(report)).toBe('process within its limits');
  });

  test('is good on the last day of its resin, and where a wet break was stated to be wet', () => {
    const lastDay = { ...ABOUT, day: '2000-02-01' };
    expect(told({ about: lastDay }).verdict.grade).toBe('good');
    const intake = { assessment: ALLOWED, sheet: { ...SHEET, damage: { moisture: 'wet' } } };
    const wet = told({ about: { ...ABOUT, intake }, events: [moisture, ...GOOD_JOB] });
    expect(wet.verdict.grade).toBe('good');
  });

  test('is good where bubbles still rose and a person did not go on', () => {
    const no = at(55, { kind: 'answer', phase: 'bubbles-stay', answer: 'no' });
    expect(told({ events: [...GOOD_JOB, no] }).reservations).toEqual([]);
  });

  test.each(Object.entries(CASES))('is not good with %s, and says so in its headline', (_, row) => {
    const report = told(row);
    expect(report.verdict).toEqual({
      process: 'process within its limits, with reservations',
      grade: 'caution',
    });
    expect(verdictHeadline(report)).toBe(`process within its limits, but ${row.headline}`);
    expect(report.reservations.map(({ support }) => support.map(plain))).toEqual([[row.support]]);
  });

  test('names three reasons in its headline and counts the rest', () => {
    const resin = { ...BOTTLE, expiresOn: '2000-01-19' };
    const about = {
      ...setAside('cleaning', 'cleaning: never done'),
      resin,
      pitResin: resin,
      intake: assessed({ answer: 'not-allowed-here' }).intake,
    };
    expect(verdictHeadline(told({ about }))).toBe(
      'process within its limits, but the rules chosen do not allow it; the resin was past its date; the pit resin was past its date; and 1 more',
    );
  });
});

test('a repair that was not completed says what stood against it all the same', () => {
  const end = { reason: 'alarm', why: 'demo', outcome: null } as const;
  const about = setAside('resin', 'demo resin: too thick');
  const report = reportOf(STOPPED, { job: JOB, about, end });
  expect(report.verdict).toEqual({ process: 'process not completed', grade: 'bad' });
  expect(verdictHeadline(report)).toBe(
    'process not completed, and a check of the resin was set aside',
  );
});

describe('a dose whose cure measured it as met', () => {
  test.each([
    'board-clock',
    'frames-stand-still',
    'light-too-bright',
    'light-not-dark',
    'light-lamp-off',
  ] as const)(
    'is not shown where the alarm %s was raised, before the cure or after it',
    (alarm) => {
      for (const timeS of [3, 195]) {
        const raised = at(timeS, alarmEvent(alarm, 'warn'));
        const events = [...GOOD_JOB, raised].sort((one, other) => one.timeS - other.timeS);
        const report = told({ events });
        expect(report.dose).toMatchObject({ verdict: 'not shown', doubts: [alarm] });
        expect(report.verdict).toEqual({ process: 'dose not shown to be met', grade: 'bad' });
        expect(verdictHeadline(report)).toBe(
          'dose not shown to be met, and the clock or the light sensor cannot be relied on',
        );
      }
    },
  );

  test('stays met after an alarm that says nothing of clock or light sensor', () => {
    const report = told({ events: [...GOOD_JOB, at(195, alarmEvent('lamp-weak', 'warn'))] });
    expect(report.dose).toMatchObject({ verdict: 'met', doubts: [] });
  });

  test('is not raised to "not shown" by such an alarm where it was not met', () => {
    const short = GOOD_JOB.map((event) =>
      event.kind === 'measured' && event.name === 'doseJPerM2' ? { ...event, value: 100 } : event,
    );
    const events = [...short, at(195, alarmEvent('board-clock', 'warn'))];
    expect(told({ events }).dose.verdict).toBe('not met');
  });
});
