import { describe, expect, test } from 'vitest';
import type { Event } from '../../../src/core/events.ts';
import { verdictHeadline } from '../../../src/document/report/claim-rows.ts';
import type { ClaimId } from '../../../src/report/claims/claim-table.ts';
import { ABOUT, alarmEvent, at, BOTTLE, GOOD_JOB, STOPPED, type Telling } from '../job-story.ts';
import { claimIn, reportOf } from '../report-of.ts';

const RULE = {
  words: 'no repair before the driver',
  ruleSet: 'Demo rules',
  edition: 'edition of 1999',
  measured: 'star-break',
};
const { sheet, assessment: ALLOWED } = ABOUT.intake;

const assessed = (assessment: object) => ({
  ...ABOUT,
  intake: { sheet, assessment: { ...ALLOWED, ...assessment } },
});
const setAside = (item: string, ...against: readonly string[]) => ({
  ...ABOUT,
  overrides: [{ item, reason: 'demo reason', against }],
});
const found = (finding: 'moisture' | 'leak' | 'outgassing', timeS = 10): Event =>
  at(timeS, { kind: 'seal-finding', finding, why: 'Levels like water' });
const answered = (phase: 'bubbles-stay' | 'final-look', answer: 'yes' | 'no'): Event =>
  at(188.5, { kind: 'answer', phase, answer });
const measuredAs = (name: string, value: number): readonly Event[] =>
  GOOD_JOB.map((event) =>
    event.kind === 'measured' && event.name === name ? { ...event, value } : event,
  );
const without = (drop: (event: Event) => boolean): readonly Event[] =>
  GOOD_JOB.filter((event) => !drop(event));
const isMeasured = (event: Event, name: string): boolean =>
  event.kind === 'measured' && event.name === name;

interface Case {
  readonly claim: ClaimId;
  readonly state: 'not shown' | 'not met';
  readonly headline: string;
  readonly line: string;
  readonly events?: readonly Event[];
  readonly telling?: Telling;
  readonly about?: object;
}

const CASES: Readonly<Record<string, Case>> = {
  'resin a day past its date': {
    claim: 'resin',
    state: 'not met',
    about: { ...ABOUT, day: '2001-01-01', resin: { ...BOTTLE, openedOn: null } },
    headline: 'the resin was past its date',
    line: 'demo resin, lot demo-lot-7: expired on 2000-12-31, used on 2001-01-01',
  },
  'resin open a day too long': {
    claim: 'resin',
    state: 'not met',
    about: { ...ABOUT, day: '2000-02-02' },
    headline: 'the resin was past its date',
    line: 'demo resin, lot demo-lot-7: opened on 2000-01-01, usable for 31 days from then, used on 2000-02-02',
  },
  'pit resin a day past its date': {
    claim: 'resin',
    state: 'not met',
    about: {
      ...ABOUT,
      pitResin: { ...BOTTLE, name: 'demo pit resin', expiresOn: '2000-01-19', openedOn: null },
    },
    headline: 'the pit resin was past its date',
    line: 'demo pit resin, lot demo-lot-7: expired on 2000-01-19, used on 2000-01-20',
  },
  'no bottle named': {
    claim: 'resin',
    state: 'not shown',
    about: { ...ABOUT, resin: null },
    headline: 'the date of the resin is not on record',
    line: 'fill: no bottle file is on record',
  },
  'a pit cured apart with a resin that nobody named': {
    claim: 'resin',
    state: 'not shown',
    telling: { profileWith: { curing: 'apart' } },
    headline: 'the pit resin is not named',
    line: 'the pit was cured apart, and no bottle is named for it but that of the fill, demo resin',
  },
  'glass colder than its resin allows': {
    claim: 'resin',
    state: 'not met',
    about: { ...ABOUT, resin: { ...BOTTLE, glass: { lowestC: 25, highestC: 40 } } },
    headline: 'the glass was too cold or too hot for the resin',
    line: 'glass 23.0 to 23.0 °C while demo resin, lot demo-lot-7, was worked; it allows 25.0 to 40.0 °C',
  },
  'rules that do not allow it': {
    claim: 'rules',
    state: 'not met',
    about: assessed({ answer: 'not-allowed-here', reasons: [RULE] }),
    headline: 'the rules chosen do not allow it',
    line: 'no repair before the driver: star-break (Demo rules, edition of 1999)',
  },
  'rules that leave it to a person': {
    claim: 'rules',
    state: 'not shown',
    about: assessed({ answer: 'needs-a-person', reasons: [RULE] }),
    headline: 'the rules chosen left it to a person',
    line: 'no repair before the driver: star-break (Demo rules, edition of 1999)',
  },
  'damage of a kind that speaks against it': {
    claim: 'rules',
    state: 'not met',
    about: assessed({ technical: { answer: 'cannot', reasons: ['Dirt stays in the break.'] } }),
    headline: 'the kind of damage is unsuited to a repair',
    line: 'Dirt stays in the break.',
  },
  'no intake sheet': {
    claim: 'rules',
    state: 'not shown',
    about: { ...ABOUT, intake: null },
    headline: 'the damage was not assessed against any rules',
    line: 'no intake sheet was assessed with this job',
  },
  'the assessment set aside': {
    claim: 'set-aside',
    state: 'not met',
    about: setAside('assessment', 'not-allowed-here, technically can'),
    headline: 'the assessment of the damage was set aside',
    line: 'not-allowed-here, technically can',
  },
  'a check of the resin set aside': {
    claim: 'set-aside',
    state: 'not met',
    about: setAside('resin', 'demo resin: too thick'),
    headline: 'a check of the resin was set aside',
    line: 'demo resin: too thick',
  },
  'care of the unit set aside': {
    claim: 'set-aside',
    state: 'not met',
    about: setAside('cleaning', 'cleaning: done on 1999-10-01, due 1999-11-01'),
    headline: 'a check of the unit was set aside',
    line: 'cleaning: done on 1999-10-01, due 1999-11-01',
  },
  'a check set aside in a journal that does not say what stood against it': {
    claim: 'set-aside',
    state: 'not met',
    about: { ...ABOUT, overrides: [{ item: 'o-ring', reason: 'demo reason' }] },
    headline: 'a check of the unit was set aside',
    line: 'o ring: demo reason',
  },
  'a journal that does not say what was set aside': {
    claim: 'set-aside',
    state: 'not shown',
    about: { ...ABOUT, overrides: undefined },
    headline: 'it is not on record whether a check was set aside',
    line: 'which checks were set aside: this journal’s version did not record it',
  },
  'resin pressed in although bubbles still rose': {
    claim: 'set-aside',
    state: 'not met',
    events: [...GOOD_JOB, answered('bubbles-stay', 'yes')],
    headline: 'bubbles still rose when the resin was pressed in',
    line: 'at 3:09 min the longest vacuum was over, bubbles still rose, and a person went on',
  },
  'a break that was stated dry and found wet': {
    claim: 'as-stated',
    state: 'not met',
    events: [found('moisture'), ...GOOD_JOB],
    headline: 'the break was stated to be dry and was found wet',
    line: 'intake sheet: dry; seal test at 0:10 min found moisture: Levels like water',
  },
  'glass that was stated 6 K warmer than it was': {
    claim: 'as-stated',
    state: 'not met',
    telling: { job: { glassC: 29 } },
    headline: 'glass or air were not as stated',
    line: 'glass: stated 29.0 °C; measured 23.0 °C',
  },
  'air that was stated 3 kPa lower than it was': {
    claim: 'as-stated',
    state: 'not met',
    about: {
      ...ABOUT,
      intake: { assessment: ALLOWED, sheet: { ...sheet, conditions: { airKPa: 97.6 } } },
    },
    headline: 'glass or air were not as stated',
    line: 'air: stated 97.6 kPa abs; measured 100.6 kPa abs',
  },
  'nothing stated': {
    claim: 'as-stated',
    state: 'not shown',
    telling: { job: {} },
    about: { ...ABOUT, intake: { assessment: ALLOWED, sheet: {} } },
    headline: 'nothing stated could be compared with what was found',
    line: 'glass: nothing was stated',
  },
  'a mark that remains': {
    claim: 'filled',
    state: 'not met',
    telling: { end: { reason: 'completed', why: 'demo', outcome: 'mark-remains' } },
    headline: 'a mark remains in the break',
    line: 'a person found it at 3:08 min',
  },
  'nobody who judged it': {
    claim: 'filled',
    state: 'not shown',
    telling: { end: { reason: 'completed', why: 'demo', outcome: null } },
    headline: 'nobody is on record as having seen the break filled',
    line: 'the record ends before anybody judged it',
  },
  'pressure on when a person said that it is clear': {
    claim: 'filled',
    state: 'not shown',
    telling: { lookPa: 102_700 },
    headline: 'the break was not seen with the pressure off',
    line: '102.7 kPa abs at 1:45 min, when a person answered that it is all clear; the air had 100.6 kPa abs',
  },
  'a dose a joule too short, its uncertainty added': {
    claim: 'dose',
    state: 'not met',
    events: measuredAs('doseJPerM2', 59_799),
    headline: 'the light dose was not reached',
    line: '5.98 J/cm² counted, at least 5.96 J/cm²; target 6.00 J/cm²',
  },
  'a dose too close to its target': {
    claim: 'dose',
    state: 'not shown',
    events: measuredAs('doseJPerM2', 60_199),
    headline: 'the light dose is too close to its target to be sure',
    line: '6.02 J/cm² counted, at least 6.00 J/cm²; target 6.00 J/cm²',
  },
  'a cure from before the lamp was interrupted': {
    claim: 'dose',
    state: 'not shown',
    events: without((event) => isMeasured(event, 'gapsPassed')),
    headline: 'the light dose rests on too little that was seen',
    line: 'interruptions of the lamp in the cure: this journal’s version did not record it',
  },
  'a cure in which no interruption passed': {
    claim: 'dose',
    state: 'not shown',
    events: measuredAs('gapsPassed', 0),
    headline: 'the light dose rests on too little that was seen',
    line: '0 interruptions of the lamp passed, 0 failed',
  },
  'more light than the lamp gave before': {
    claim: 'dose',
    state: 'not shown',
    events: measuredAs('irradianceMeanWPerM2', 1651),
    headline: 'there was more light than the lamp can give',
    line: '165.1 mW/cm² on average; 150.0 mW/cm² known of this lamp',
  },
  'less light than a lamp of any age gives': {
    claim: 'dose',
    state: 'not shown',
    events: measuredAs('irradianceMeanWPerM2', 899),
    headline: 'the light dose rests on too little that was seen',
    line: '89.9 mW/cm² on average; 150.0 mW/cm² known of this lamp',
  },
  'a vacuum below the lowest allowed': {
    claim: 'pressure',
    state: 'not met',
    telling: { lowestPa: 14_999 },
    headline: 'the pressure left its limits',
    line: '15.0 kPa abs to 238.0 kPa abs seen, 15.0 kPa abs to 272.6 kPa abs allowed',
  },
  'glass hotter than allowed': {
    claim: 'temperature',
    state: 'not met',
    about: { ...ABOUT, resin: { ...BOTTLE, glass: { lowestC: 12, highestC: 60 } } },
    telling: { glassK: 313.16, job: { glassC: 40 } },
    headline: 'the glass was too cold or too hot',
    line: '40.0 °C to 40.0 °C seen, 12.0 °C to 40.0 °C allowed',
  },
  'a seal that leaked over its limit': {
    claim: 'seal',
    state: 'not met',
    events: measuredAs('leakRatePaM3PerS', 0.006),
    headline: 'the seal leaked',
    line: 'last test of the seal, leak rate 6.00 mPa·m³/s, at most 5.00 mPa·m³/s allowed',
  },
  'air that still came out when the job went on': {
    claim: 'seal',
    state: 'not shown',
    events: [...GOOD_JOB, found('outgassing', 190)],
    headline: 'air or vapour still came out when the job went on',
    line: 'test at 3:10 min: outgassing, leak rate 1.00 mPa·m³/s, at most 5.00 mPa·m³/s allowed: Levels like water',
  },
  'a vacuum dwell a second too short': {
    claim: 'held',
    state: 'not met',
    telling: { profileWith: { vacuum: { dwellS: 36 } } },
    headline: 'vacuum, pressure or light were not held for their time',
    line: 'cycle 1, vacuum: held for 35 s, 36 s asked',
  },
  'a lamp that burned for longer than allowed': {
    claim: 'held',
    state: 'not met',
    events: measuredAs('lampOnS', 601),
    headline: 'vacuum, pressure or light were not held for their time',
    line: 'lamp on for 601 s, 30 s to 600 s allowed',
  },
  'a shield that was open in the light': {
    claim: 'interlocks',
    state: 'not met',
    telling: { shieldClosed: (timeS) => timeS > 110 },
    headline: 'the lamp burned with the shield open',
    line: 'first at 1:50 min',
  },
  'a shield contact that never moved': {
    claim: 'interlocks',
    state: 'not shown',
    telling: { shieldClosed: () => true },
    headline: 'the shield switch was never seen to move',
    line: 'closed all the time before the cure that began at 1:50 min',
  },
  'a channel without a calibration': {
    claim: 'calibrations',
    state: 'not shown',
    about: { ...ABOUT, calibrations: ABOUT.calibrations.slice(1) },
    headline: 'a sensor was not calibrated',
    line: 'pressure: none in force',
  },
  'a calibration that ended a day before': {
    claim: 'calibrations',
    state: 'not met',
    about: {
      ...ABOUT,
      calibrations: ABOUT.calibrations.map((row) => ({ ...row, due: '2000-01-19' })),
    },
    headline: 'a calibration was out of date',
    line: 'pressure: calibrated on 1999-12-01, good until 2000-01-19; the job was on 2000-01-20',
  },
  'calibrations that nobody recorded': {
    claim: 'calibrations',
    state: 'not shown',
    about: { ...ABOUT, calibrations: null },
    headline: 'the calibrations are not on record',
    line: 'the calibrations in force: this journal’s version did not record it',
  },
  'overdue care that only warned': {
    claim: 'care',
    state: 'not met',
    about: {
      ...ABOUT,
      care: [{ what: 'cleaning', state: 'done on 2000-01-01', due: 'overdue-warn' }],
    },
    headline: 'care of the unit was overdue',
    line: 'cleaning: done on 2000-01-01',
  },
  'care that was never logged': {
    claim: 'care',
    state: 'not shown',
    about: { ...ABOUT, care: [{ what: 'cleaning', state: 'never logged', due: 'never-done' }] },
    headline: 'care of the unit is not on record',
    line: 'cleaning: never logged',
  },
  'care whose state an older journal does not say': {
    claim: 'care',
    state: 'not shown',
    about: { ...ABOUT, care: [{ what: 'cleaning', state: 'done on 2000-01-01' }] },
    headline: 'care of the unit is not on record',
    line: 'cleaning: done on 2000-01-01 (whether that was in order, this journal’s version did not record)',
  },
  'a hold': {
    claim: 'uninterrupted',
    state: 'not met',
    events: [...GOOD_JOB, at(150, alarmEvent('shield-open', 'hold'))],
    headline: 'it was interrupted',
    line: 'alarm shield open at 2:30 min: Expected demo, seen other',
  },
};

const plain = (text: string): string => text.replaceAll('\u00a0', ' ');

describe('a repair', () => {
  test.each(Object.entries(CASES))('with %s is not good, and its claim says why', (_, row) => {
    const { claim: id, state, headline, line, events = GOOD_JOB, about = ABOUT, telling } = row;
    const report = reportOf(events, { about, ...telling });
    const claim = claimIn(report, id);
    expect(claim.state).toBe(state);
    const [first] = claim.objections;
    expect(first?.headline).toBe(headline);
    expect(plain(first?.lines[0] ?? '')).toBe(line);
    expect(report.verdict.grade).not.toBe('good');
  });

  test('on the last day of its resin has it in date', () => {
    const claim = claimIn(reportOf(GOOD_JOB, { about: { ...ABOUT, day: '2000-02-01' } }), 'resin');
    expect(claim.state).toBe('shown');
    expect(claim.support[0]?.line).toBe(
      'demo resin, lot demo-lot-7: good until 2000-02-01, used on 2000-02-01',
    );
  });

  test('on a wet break that was stated to be wet is as it was stated', () => {
    const intake = { assessment: ALLOWED, sheet: { ...sheet, damage: { moisture: 'wet' } } };
    const report = reportOf([found('moisture'), ...GOOD_JOB], { about: { ...ABOUT, intake } });
    expect(claimIn(report, 'as-stated').state).toBe('shown');
  });

  test('whose bubbles still rose, and a person did not go on, set nothing aside', () => {
    const report = reportOf([...GOOD_JOB, answered('bubbles-stay', 'no')]);
    expect(claimIn(report, 'set-aside').state).toBe('shown');
  });

  test('that a leak was found in first, and none at last, has a tight seal by its sensor', () => {
    const { objections } = claimIn(reportOf([found('leak'), ...GOOD_JOB]), 'seal');
    expect(objections.map(({ id }) => id)).not.toContain('leaks');
  });
});

test('a repair that was not completed says what stood against it all the same', () => {
  const end = { reason: 'alarm', why: 'demo', outcome: null } as const;
  const about = setAside('resin', 'demo resin: too thick');
  const report = reportOf(STOPPED, { about, end });
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
        const report = reportOf(events);
        const { verdict, objections } = report.dose;
        expect([verdict, ...objections]).toEqual(['not shown', 'clock-or-light-in-doubt']);
        expect(report.verdict).toEqual({ process: 'dose not shown to be met', grade: 'bad' });
      }
    },
  );

  test('stays met after an alarm that says nothing of clock or light sensor', () => {
    const report = reportOf([...GOOD_JOB, at(195, alarmEvent('lamp-weak', 'warn'))]);
    expect(report.dose).toMatchObject({ verdict: 'met', objections: [] });
  });

  test('is not raised to "not shown" by such an alarm where it was not met', () => {
    const events = [...measuredAs('doseJPerM2', 100), at(195, alarmEvent('board-clock', 'warn'))];
    expect(reportOf(events).dose.verdict).toBe('not met');
  });
});
