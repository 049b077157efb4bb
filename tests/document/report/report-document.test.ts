import { describe, expect, test } from 'vitest';
import DEFAULT_UNIT_FILE from '../../../src/app/defaults/unit.json' with { type: 'json' };
import { budgetLinesOf } from '../../../src/app/papers/journal-budgets.ts';
import type { DocumentFacts } from '../../../src/document/facts.ts';
import { renderHtml } from '../../../src/document/html.tsx';
import { ENGLISH_PAPERS } from '../../../src/document/paper-words.ts';
import { reportDocument } from '../../../src/document/report/report-document.ts';
import { readJournal } from '../../../src/journal/read-journal.ts';
import { reportDataOf } from '../../../src/report/report-data.ts';
import { GOOD_JOB, HELD_JOB, journalOf, STOPPED } from '../../report/job-story.ts';
import { factsOf, longFacts } from '../document-data.ts';

function factsIn(text: string): DocumentFacts {
  const read = readJournal(text, 'demo.jsonl');
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const report = reportDataOf(read.value, budgetLinesOf(read.value));
  return { ...factsOf(), report, snapshots: read.value.snapshots };
}

const pageOf = (text: string): string => renderHtml(reportDocument(factsIn(text), ENGLISH_PAPERS));

const PAGES: readonly (readonly [string, string])[] = [
  ['a good job', journalOf(GOOD_JOB)],
  ['a held job', journalOf(HELD_JOB)],
  ['a stopped job', journalOf(STOPPED, { end: { reason: 'alarm', why: 'demo', outcome: null } })],
  ['a job without settings', journalOf(GOOD_JOB, { profile: null, job: null })],
  ['a journal of a header alone', `${journalOf(GOOD_JOB).split('\n')[0]}\n`],
];

describe('the report page', () => {
  test.each(PAGES)('of %s loads nothing and runs nothing', (_, text) => {
    const page = pageOf(text);
    expect(page).not.toMatch(/<script|<link|<iframe|<img|<object|\bsrc=|\bhref=|url\(|@import/i);
    expect(page).not.toMatch(/(https?:)?\/\/[a-z]/i);
    expect(page).not.toMatch(/\son[a-z]+=/i);
  });

  test.each(PAGES)('of %s shows no number that is none', (_, text) => {
    expect(pageOf(text)).not.toMatch(/NaN|Infinity|undefined|\[object/);
  });

  test('names whose target the dose is held to', () => {
    const facts = factsIn(journalOf(GOOD_JOB));
    const pageSetBy = (targetSetBy: DocumentFacts['report']['dose']['targetSetBy']): string => {
      const doses = facts.report.doses.map((dose) => ({ ...dose, targetSetBy }));
      return renderHtml(
        reportDocument({ ...facts, report: { ...facts.report, doses } }, ENGLISH_PAPERS),
      );
    };
    expect(pageSetBy('profile')).toContain('Target of the profile');
    expect(pageSetBy('depth of the break')).toContain(
      'Target at the sensor, set by the depth of the break',
    );
    expect(pageSetBy('depth of the break')).not.toContain('Target of the profile');
  });

  test('tells the verdict before anything it rests on', () => {
    const page = pageOf(journalOf(GOOD_JOB));
    const order = [
      'Process within its limits',
      'Claims: what was shown, and by what',
      'Job and damage',
      'Dose',
      'Pressure',
      'Phases',
    ];
    const places = order.map((words) => page.indexOf(`${words}</h2>`));
    expect(places.every((place) => place > 0)).toBe(true);
    expect(places).toEqual([...places].sort((a, b) => a - b));
  });

  test('says of a simulated run that it is one, and of another that it is not', () => {
    const real = journalOf(GOOD_JOB, { seed: null }).replaceAll('simulated board', 'bench board');
    expect(pageOf(journalOf(GOOD_JOB))).toContain('SIMULATED RUN, DEMO DATA');
    expect(pageOf(real)).not.toMatch(/simulated/i);
    const played = real.replaceAll('bench board', 'recorded board');
    expect(pageOf(played)).toMatch(/simulated run/i);
  });

  test('shows free text as text, wherever it comes from', () => {
    const evil = '<script>alert(1)</script><img src=x onerror="alert(2)">\'';
    const job = { reference: evil, notes: evil, [evil]: 1 };
    const profile = { source: evil, list: [{ deep: evil }] };
    const why = { reason: 'alarm', why: evil, outcome: null } as const;
    const page = pageOf(journalOf(STOPPED, { job, profile, end: why }));
    expect(page).not.toMatch(/<script|<img/i);
    expect(page.split('&lt;script>alert(1)').length).toBeGreaterThan(5);
  });

  test('prints the dose with its uncertainty, and says so where there is none', () => {
    const page = pageOf(journalOf(GOOD_JOB, { unit: DEFAULT_UNIT_FILE })).replaceAll('\u00a0', ' ');
    expect(page).toMatch(/Guard band k u, added to the cure<\/th><td[^>]*>0\.02 J\/cm²/);
    expect(page).toContain('2.000 (95 %, one-sided)');
    expect(page).toMatch(/Dose shown to be at least<\/th><td[^>]*>6\.00 J\/cm²/);
    expect(page).toMatch(/pressure<\/td><td[^>]*>25\.1 kPa abs<\/td>/);
    const older = pageOf(journalOf(STOPPED, { unit: {} }));
    expect(older).toContain('none stated: judged by the dose as read');
    expect(older).toContain('The unit file of this record states no uncertainties.');
  });

  test('states the modest claims and no other', () => {
    const page = pageOf(journalOf(GOOD_JOB));
    expect(page).toContain('A mark may remain visible. The glass is improved, not made new.');
    expect(page).toContain('How strong the glass is: nothing here loads it.');
    expect(page).not.toMatch(/as good as new|as strong as|invisible|guarantee|certified/i);
  });

  test('prints gauge or absolute with every pressure', () => {
    const page = pageOf(journalOf(GOOD_JOB)).replaceAll('\u00a0', ' ');
    expect(page).toContain('25.1 kPa abs');
    expect(page.match(/\d kPa(?! abs| gauge)/g)).toBeNull();
    expect(page.match(/\d (psi|inHg)(?! gauge| of vacuum, gauge)/g)).toBeNull();
  });

  test('tells all that was handed in from outside the journal', () => {
    const facts = longFacts();
    const page = renderHtml(reportDocument(facts, ENGLISH_PAPERS)).replaceAll(/\s+/g, ' ');
    for (const words of [
      'Abcdefghij Klmnopqrst Uvwxyzabcd Efghijk',
      'NOT ALLOWED HERE by the rules chosen',
      'Nobody said whether it is dry.',
      'at most 5 mm',
      '0.12 kPa',
      'Calibration of supply overdue',
      facts.amendments?.[0]?.text.trim(),
      facts.agreement?.trim(),
      'no. 12',
      facts.chain?.hash,
      facts.report.journal.sha256,
    ]) {
      expect(page).toContain(words);
    }
  });

  test('prints no name of a person that an older journal still holds', () => {
    const job = { technician: 'Demo Person', resin: { lot: 'demo-lot' } };
    const page = pageOf(journalOf(GOOD_JOB, { job }));
    expect(page).not.toContain('Demo Person');
    expect(page).toContain('demo-lot');
  });

  test('says of what nobody handed in that it was not recorded', () => {
    const page = pageOf(journalOf(GOOD_JOB));
    for (const words of [
      'Technician, customer and vehicle: not recorded.',
      'No assessment against rules was recorded with this job.',
      'Calibrations: not recorded with this job.',
      'Overrides: not recorded with this job.',
      'Amendments: the chain of records was not read.',
    ]) {
      expect(page).toContain(words);
    }
  });

  test('gives every drawing an id, a name and a description of its own', () => {
    const page = pageOf(journalOf(GOOD_JOB));
    const ids = [...page.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id);
    expect(ids.length).toBeGreaterThan(6);
    expect(new Set(ids).size).toBe(ids.length);
    for (const [, named = ''] of page.matchAll(/aria-labelledby="([^"]+)"/g)) {
      for (const id of named.split(' ')) expect(ids).toContain(id);
    }
  });
});
