/** The report's text on fill and pit that were cured apart. */

import { describe, expect, test } from 'vitest';
import type { Event } from '../../src/core/events.ts';
import { ENGLISH_PAPERS } from '../../src/document/paper-words.ts';
import { reportDocument } from '../../src/document/report/report-document.ts';
import { outcomeText } from '../../src/document/report/verdict-box.ts';
import { readJournal } from '../../src/journal/read-journal.ts';
import { type ReportData, reportDataOf } from '../../src/report/report-data.ts';
import { APART, apartJob, FILL_MET, PIT_MET } from './apart-job.ts';
import { at, GOOD_JOB, journalOf, type Telling } from './job-story.ts';

function contentsOf(events: readonly Event[], telling: Telling = {}) {
  const read = readJournal(journalOf(events, { profile: APART, ...telling }), 'demo.jsonl');
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value;
}
const reportOf = (events: readonly Event[], telling?: Telling): ReportData =>
  reportDataOf(contentsOf(events, telling), []);

describe('doses apart', () => {
  test('are stated and judged each by its own, and the lamp’s time within its own limits', () => {
    const { claims, doses, limits } = reportOf(apartJob());
    expect(doses).toMatchObject([
      {
        portion: 'fill',
        verdict: 'met',
        doseJPerM2: 60_300,
        targetJPerM2: 60_000,
        throughPitJPerM2: 9000,
        uncertainty: { expandedJPerM2: 200, shownJPerM2: 60_100 },
      },
      {
        portion: 'pit',
        verdict: 'met',
        doseJPerM2: 15_300,
        targetJPerM2: 15_000,
        throughPitJPerM2: null,
        uncertainty: { expandedJPerM2: 200, shownJPerM2: 15_100 },
      },
    ]);
    const onDoses = claims.filter(({ id }) => id === 'dose');
    expect(onDoses.map(({ portion, state }) => [portion, state])).toEqual([
      ['fill', 'shown'],
      ['pit', 'shown'],
    ]);
    expect(
      limits.flatMap(({ what, within }) => (/lamp/.test(what) ? [[what, within]] : [])),
    ).toEqual([
      ['lamp on, fill', true],
      ['lamp on, pit', true],
    ]);
  });

  test.each([
    ['the fill', { ...FILL_MET, doseJPerM2: 59_000 }, PIT_MET, 'not met', 'outside its limits'],
    ['the pit', FILL_MET, { ...PIT_MET, doseJPerM2: 14_000 }, 'not met', 'outside its limits'],
    ['the pit', FILL_MET, { ...PIT_MET, doseJPerM2: 15_100 }, 'not shown', 'not shown'],
  ])('lack in %s is the verdict on the whole', (_, fill, pit, verdict, process) => {
    const report = reportOf(apartJob(fill, pit));
    expect(report.dose.verdict).toBe(verdict);
    expect(report.verdict.grade).toBe('bad');
    expect(report.verdict.process).toContain(process);
  });

  test('light that came through the pit does not make up for a fill that had too little', () => {
    const [fill] = reportOf(apartJob({ ...FILL_MET, doseJPerM2: 55_000 })).doses;
    expect(fill).toMatchObject({ verdict: 'not met', throughPitJPerM2: 9000 });
  });

  test('a job that broke off with the fill cured says that the pit was not', () => {
    const job = [
      ...apartJob().filter(({ timeS }) => timeS <= 126),
      at(127, { kind: 'batch', from: 'running', to: 'stopping', why: 'demo stop' }),
    ];
    const end = { reason: 'stopped-by-person', why: 'demo stop', outcome: null } as const;
    const report = reportOf(job, { end });
    expect(report.doses.map(({ verdict }) => verdict)).toEqual(['met', 'not cured']);
    expect(outcomeText(report, ENGLISH_PAPERS)).toContain('The pit was not cured.');
    expect(outcomeText(report, ENGLISH_PAPERS)).not.toContain('Nothing');
  });

  test('a job that broke off in the fill’s cure takes the fill’s dose from the last look at it', () => {
    const job = [
      ...apartJob().filter(({ timeS, kind }) => timeS < 125 || (timeS === 105 && kind === 'phase')),
      at(126, { kind: 'batch', from: 'running', to: 'stopping', why: 'demo stop' }),
    ];
    const end = { reason: 'stopped-by-person', why: 'demo stop', outcome: null } as const;
    const [fill, pit] = reportOf(job, { end, doseJPerM2: 30_000 }).doses;
    expect(fill).toMatchObject({ verdict: 'not met', doseJPerM2: 30_000, uncertainty: null });
    expect(pit).toMatchObject({ verdict: 'not cured', doseJPerM2: 0 });
  });

  test('nothing of this is said of a job that was cured together', () => {
    const read = readJournal(journalOf(GOOD_JOB), 'demo.jsonl');
    if (!read.ok) throw new Error('a sound journal');
    const { doses, dose } = reportDataOf(read.value, []);
    expect(doses).toEqual([dose]);
    expect(dose.portion).toBe('fill and pit');
  });
});

test('the pages draw and list each dose, under ids of its own', () => {
  const contents = contentsOf(apartJob());
  const { blocks } = reportDocument(
    {
      report: reportDataOf(contents, []),
      snapshots: contents.snapshots,
      recordId: 'demo',
      personal: null,
      personalRemovedOn: null,
      intake: null,
      calibrations: null,
      care: null,
      overrides: null,
      amendments: null,
      chain: null,
      photos: { before: null, after: null },
      agreement: null,
    },
    ENGLISH_PAPERS,
  );
  const figures = blocks.flatMap((block) => (block.kind === 'figure' ? [block.id] : []));
  expect(figures.filter((id) => id.startsWith('dose'))).toEqual([
    'dose-bar-fill',
    'dose-fill',
    'dose-bar-pit',
    'dose-pit',
  ]);
  expect(new Set(figures).size).toBe(figures.length);
  const headings = blocks.flatMap((block) => (block.kind === 'heading' ? [block.text] : []));
  expect(headings).toEqual(expect.arrayContaining(['Dose of the fill', 'Dose of the pit']));
  const words = JSON.stringify(blocks);
  expect(words).toContain('the fill, cured before the pit was made');
  expect(words).toContain('calculated from the pit’s depth, not judged');
});
