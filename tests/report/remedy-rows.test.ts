import { expect, test } from 'vitest';
import { ENGLISH_PAPERS } from '../../src/document/paper-words.ts';
import { remediesTable } from '../../src/document/report/history.ts';
import { at, GOOD_JOB } from './job-story.ts';
import { reportOf } from './report-of.ts';

test('the report lists remedies and fresh resin in order, and a declined remedy as declined', () => {
  const report = reportOf([
    ...GOOD_JOB,
    at(181, { kind: 'remedy', cycle: 2, remedy: 'warmth', taken: false }),
    at(182, { kind: 'remedy', cycle: 2, remedy: 'thinner-resin', taken: true }),
    at(183, { kind: 'recharge', cycle: 3, why: 'thinner-resin' }),
  ]);
  expect(remediesTable(report, ENGLISH_PAPERS)).toMatchObject({
    rows: [
      ['3:01', '2', 'Remedy: a wide area warmed gently', 'declined'],
      ['3:02', '2', 'Remedy: thinner resin', 'yes'],
      ['3:03', '3', 'Fresh resin: a thinner resin was put in as a remedy', 'yes'],
    ],
  });
});

test('a job that needed neither has no such table', () => {
  expect(remediesTable(reportOf(), ENGLISH_PAPERS)).toBeNull();
});
