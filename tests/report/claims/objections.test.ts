import { describe, expect, test } from 'vitest';
import type { AlarmId } from '../../../src/core/alarm-ids.ts';
import { verdictHeadline } from '../../../src/document/report/claim-rows.ts';
import { ENGLISH_CLAIMS } from '../../../src/report/language.ts';
import { ABOUT } from '../../papers-in-order.ts';
import { alarmEvent, at, GOOD_JOB, STOPPED } from '../job-story.ts';
import { claimIn, reportOf } from '../report-of.ts';
import { AIR_CASES } from './air-cases.ts';
import { answered, BESIDE_CASES, found, setAside } from './beside-cases.ts';
import { GLASS_CASES } from './glass-cases.ts';
import { MEASURED_CASES } from './measured-cases.ts';
import { measuredAs } from './story-changes.ts';

const { sheet, assessment: ALLOWED } = ABOUT.intake;
const plain = (text: string): string => text.replaceAll('\u00a0', ' ');

describe('a repair', () => {
  test.each(Object.entries({ ...BESIDE_CASES, ...AIR_CASES, ...MEASURED_CASES, ...GLASS_CASES }))(
    'with %s is not good, and its claim says why',
    (_, row) => {
      const { claim: id, state, headline, line, events = GOOD_JOB, about = ABOUT, telling } = row;
      const report = reportOf(events, { about, ...telling });
      const claim = claimIn(report, id);
      expect(claim.state).toBe(state);
      const [first] = claim.objections;
      expect(first?.headline).toBe(headline);
      expect(plain(first?.lines[0] ?? '')).toBe(line);
      expect(report.verdict.grade).not.toBe('good');
    },
  );

  test('with everything in order has every claim shown, each by what it needs', () => {
    const { claims, verdict } = reportOf();
    expect(claims.filter(({ state }) => state !== 'shown')).toEqual([]);
    expect(verdict).toEqual({ process: 'process within its limits', grade: 'good' });
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

test('a repair that was stopped blames no version for what it did not come to', () => {
  const end = { reason: 'stopped-by-person', why: 'demo', outcome: null } as const;
  const { objections } = claimIn(reportOf(STOPPED, { end }), 'clock');
  expect(objections.flatMap(({ lines }) => lines)).toContain(
    'a comparison of the clocks of board and host: not on record, as the job did not come to its end',
  );
});

test('a cure that was held and went on asks for no second look at the shield', () => {
  const again = at(130, { kind: 'phase', phase: 'cure', cycle: 1 });
  const index = GOOD_JOB.findIndex(({ timeS }) => timeS > 130);
  const events = [...GOOD_JOB.slice(0, index), again, ...GOOD_JOB.slice(index)];
  expect(claimIn(reportOf(events), 'interlocks').state).toBe('shown');
});

test('a repair that was not completed says what stood against it all the same', () => {
  const end = { reason: 'alarm', why: 'demo', outcome: null } as const;
  const about = setAside('resin', 'demo resin: too thick');
  const report = reportOf(STOPPED, { about, end });
  expect(report.verdict).toEqual({ process: 'process not completed', grade: 'bad' });
  expect(verdictHeadline(report, ENGLISH_CLAIMS)).toBe(
    'process not completed, and a check of the resin was set aside',
  );
});

describe('an alarm of the clock, in a job whose clocks agreed at last', () => {
  const CLAIMS = ['clock', 'held', 'seal'] as const;
  const raised = (alarm: AlarmId, timeS: number) =>
    reportOf([...GOOD_JOB, at(timeS, alarmEvent(alarm, 'warn'))].sort((a, b) => a.timeS - b.timeS));

  test.each([
    ['board-clock', 3],
    ['board-clock', 195],
    ['frames-stand-still', 60],
    ['frames-rare', 60],
  ] as const)('%s at %d s leaves clock, times held and leak rate not shown', (alarm, timeS) => {
    const report = raised(alarm, timeS);
    for (const id of CLAIMS) {
      const { state, objections } = claimIn(report, id);
      expect(state).toBe('not shown');
      expect(objections.map(({ headline }) => headline)).toEqual(['the clock cannot be relied on']);
    }
    expect(report.verdict.grade).not.toBe('good');
  });

  test('is none where another alarm was raised', () => {
    const report = raised('lamp-weak', 195);
    for (const id of CLAIMS) expect(claimIn(report, id).state).toBe('shown');
  });
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
