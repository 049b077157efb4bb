import { describe, expect, test } from 'vitest';
import { certificate as worded } from '../../../src/document/certificate/certificate.ts';
import type { DocumentFacts } from '../../../src/document/facts.ts';
import { renderHtml } from '../../../src/document/html.tsx';
import { ENGLISH_PAPERS } from '../../../src/document/paper-words.ts';
import type { AttemptFacts } from '../../../src/report/claims/attempt-facts.ts';
import { ABOUT } from '../../papers-in-order.ts';
import { GOOD_JOB, STOPPED } from '../../report/job-story.ts';
import { factsOf, JOB, longFacts, PANE, pdfOf } from '../document-data.ts';
import { readPdf, squeezed } from '../pdf-text.ts';

const certificate = (facts: DocumentFacts) => worded(facts, ENGLISH_PAPERS);

const ABORTED = { end: { reason: 'alarm', why: 'Expected on, seen off.', outcome: null } } as const;

const PANE_ALONE = { sheet: {}, assessment: null, drawingSvg: PANE, briefSvg: null };

const CASES: readonly (readonly [string, () => DocumentFacts])[] = [
  ['a good job', () => factsOf()],
  ['a job that an alarm stopped before any cure', () => factsOf(STOPPED, ABORTED)],
  ['a job without settings', () => factsOf(GOOD_JOB, { profile: null, job: null, unit: null })],
  ['a drawing and nothing else', () => factsOf(GOOD_JOB, {}, { intake: PANE_ALONE })],
  ['the longest texts', longFacts],
];

/** All text of the page, each kind of space a plain one. */
const textOf = (html: string): string =>
  html
    .replaceAll(/<style>.*?<\/style>/gs, '')
    .replaceAll(/<[^>]*>/g, ' ')
    .replaceAll(/\s+/g, ' ');

describe('the certificate of', () => {
  test.each(CASES)('%s is one page, with its disclosure and code on it', async (_, facts) => {
    const page = certificate(facts());
    const { pages, text } = readPdf((await pdfOf(page)).bytes);
    expect(pages).toBe(1);
    for (const sentence of ENGLISH_PAPERS.certificate.disclosure)
      expect(squeezed(text)).toContain(squeezed(sentence));
    expect(squeezed(text)).toMatch(/meniscus:(record|journal):demo-1:[0-9a-f]{64}/);
  });

  test.each(CASES)(
    '%s loads nothing, runs nothing and shows no number that is none',
    (_, facts) => {
      const html = renderHtml(certificate(facts()));
      expect(html).not.toMatch(/<script|<link|<iframe|<object|\bhref=|url\(|@import/i);
      expect(html.replaceAll(/src="data:image\/[a-z+]+;base64,[^"]*"/g, '')).not.toMatch(/\bsrc=/);
      expect(textOf(html)).not.toMatch(/NaN|Infinity|undefined|\[object/);
    },
  );

  test('the longest texts is set smaller, and a short one is not', async () => {
    expect((await pdfOf(certificate(longFacts()))).scale).toBeLessThan(0.9);
    expect((await pdfOf(certificate(factsOf()))).scale).toBe(1);
  });
});

describe('the certificate', () => {
  test('carries result, dose, target, resin and lot, in HTML and PDF alike', async () => {
    const page = certificate(factsOf());
    const html = textOf(renderHtml(page));
    const pdf = squeezed(readPdf((await pdfOf(page)).bytes).text);
    for (const words of [
      'The process stayed within its limits',
      '6.02 J/cm² ± 0.02 J/cm²: at least 6.00 J/cm²',
      'target 6.00 J/cm²: met',
      'demo resin, lot demo-lot-7',
      'star break, diameter 22 mm, pit 2 mm, 5 legs, longest leg 10 mm, depth 1.5 mm',
      '1; in the last: vacuum 25.1 kPa abs, pressure 238.0 kPa abs',
    ]) {
      expect(html).toContain(words);
      expect(pdf).toContain(squeezed(words));
    }
  });

  test('names the earlier attempt in which the cycles were run', () => {
    const facts = factsOf(STOPPED, ABORTED);
    const [cycle] = factsOf().report.cycles;
    if (cycle === undefined) throw new Error('the good job has no cycle');
    const earlier = (record: string, cycles: readonly (typeof cycle)[]) => ({
      ...{
        record,
        number: 1,
        journalSha256: '',
        startedAt: '',
        endedAt: '',
        phase: 'cure' as const,
      },
      ...{ end: { reason: 'alarm', why: 'demo' }, claims: [], doses: [], cycles: [...cycles] },
    });
    const rowsOf = (cycles: readonly (typeof cycle)[]): string => {
      const attempt: AttemptFacts = {
        ...{ job: 'job-7', number: 2, how: 'go-on', apartS: 0, resinStood: true },
        entry: {
          at: 'cover-film',
          cycle: 1,
          position: 1,
          cyclesBefore: 0,
          loadRatio: 1,
          pressureRatio: 1,
          tried: [],
          legGrew: false,
          outcome: null,
        },
        earlier: [earlier('job-7', cycles)],
      };
      const report = { ...facts.report, attempt, cycles: [], measured: [] };
      return textOf(renderHtml(certificate({ ...facts, report })));
    };
    const there = 'in an earlier attempt: see record job-7';
    expect(rowsOf([cycle])).toContain(`Cycles ${there} Seal ${there}`);
    expect(rowsOf([])).toContain('Cycles no cycle was begun Seal not recorded');
  });

  test('takes its dose and verdict from the report’s data', () => {
    const facts = factsOf();
    const doses = facts.report.doses.map((dose) => ({
      ...dose,
      doseJPerM2: 41_230,
      targetJPerM2: 51_000,
      uncertainty: null,
      verdict: 'not met' as const,
    }));
    const html = textOf(renderHtml(certificate({ ...facts, report: { ...facts.report, doses } })));
    expect(html).toContain('4.12 J/cm², no uncertainty stated; target 5.10 J/cm²: not met');
  });

  test('says at its top, to a customer, what stands against it, and below what shows that', () => {
    const bottle = {
      name: 'demo resin',
      lot: 'demo-lot-7',
      expiresOn: '1999-12-31',
      openedOn: '1999-12-20',
      usableAfterOpeningDays: 180,
    };
    const about = { ...ABOUT, resin: bottle };
    const overrides = [
      { at: '2000-01-01', what: 'resin', by: 'Demo Person', reason: 'practice on a coupon' },
    ];
    const html = renderHtml(certificate(factsOf(GOOD_JOB, { about }, { overrides })));
    const text = textOf(html);
    expect(text).toContain('The process stayed within its limits, but the resin was past its date');
    expect(text).toContain('demo resin, lot demo-lot-7: expired on 1999-12-31, used on 2000-01-20');
    expect(text).toContain('resin (Demo Person): practice on a coupon');
    expect(html).toContain('class="verdict caution"');
    expect(html).not.toContain('class="verdict good"');
  });

  test('carries the pit resin with its lot and dates where the job names one', () => {
    const pit = { name: 'demo pit resin', lot: 'demo-pit-3' };
    const job = { ...JOB, pitResin: pit };
    const dates = { expiresOn: '2000-12-31', openedOn: '1999-12-20', usableAfterOpeningDays: 180 };
    const about = { pitResin: { ...pit, ...dates } };
    const text = textOf(renderHtml(certificate(factsOf(GOOD_JOB, { job, about }))));
    expect(text).toContain(
      'Pit resin demo pit resin, lot demo-pit-3, expires 2000-12-31, opened 1999-12-20',
    );
    expect(textOf(renderHtml(certificate(factsOf())))).not.toContain('Pit resin');
  });

  test('says of what nobody recorded that nobody did, and of an empty list that there was none', () => {
    const unknown = textOf(renderHtml(certificate(factsOf())));
    expect(unknown).toContain('Overrides not recorded');
    expect(unknown).toContain('Calibrations in force not recorded');
    expect(unknown).toContain('no assessment was recorded with this job');
    const none = factsOf(GOOD_JOB, {}, { overrides: [], calibrations: [], amendments: [] });
    const empty = textOf(renderHtml(certificate(none)));
    expect(empty).toContain('Overrides none');
    expect(empty).toContain('Calibrations in force none in force');
    expect(empty).toContain('Edits none; edits are appended, never overwritten');
  });

  test('prints people only while their data are there', () => {
    const personal = { technician: 'Demo Person', vehicle: 'DEMO 12', customer: 'Demo Customer' };
    const there = textOf(renderHtml(certificate(factsOf(GOOD_JOB, {}, { personal }))));
    for (const name of Object.values(personal)) expect(there).toContain(name);
    const gone = factsOf(GOOD_JOB, {}, { personal: null, personalRemovedOn: '2026-05-01' });
    expect(textOf(renderHtml(certificate(gone)))).toContain(
      'Vehicle personal data removed on 2026-05-01',
    );
    const old = factsOf(GOOD_JOB, { job: { technician: 'Demo Person' } });
    expect(textOf(renderHtml(certificate(old)))).not.toContain('Demo Person');
  });

  test('shows the brief drawing where there is one, else the whole', () => {
    const briefSvg = PANE.replace('M5 5', 'M7 7');
    const shown = (intake: DocumentFacts['intake']) => {
      const html = renderHtml(certificate(factsOf(GOOD_JOB, {}, { intake })));
      const [, data = ''] = /base64,([^"]*)" alt="The pane and the damage/.exec(html) ?? [];
      return Buffer.from(data, 'base64').toString();
    };
    expect(shown({ ...PANE_ALONE, briefSvg })).toBe(briefSvg);
    expect(shown(PANE_ALONE)).toBe(PANE);
  });

  test('names the other damages of the pane, and says nothing of them where there are none', () => {
    const text = (samePane: readonly string[]) => {
      const intake = { ...PANE_ALONE, sheet: { samePane } };
      return textOf(renderHtml(certificate(factsOf(GOOD_JOB, {}, { intake }))));
    };
    expect(text(['job-7a', 'job-7c'])).toContain('Also on this pane job-7a, job-7c');
    expect(text([])).not.toContain('Also on this pane');
  });

  test('counts what it has no room for', () => {
    const text = textOf(renderHtml(certificate(longFacts())));
    expect(text).toContain('5: glass cold, set point lost, daylight near, supply low and 1 more');
    expect(text).toContain('and 6 more (complete in the full report)');
    expect(text).toContain('NOT ALLOWED HERE');
  });

  test('claims no more than the process, and says so where the run was simulated', () => {
    const text = textOf(renderHtml(certificate(factsOf())));
    expect(text).toContain('A mark may remain visible. The glass is improved, not made new.');
    expect(text).not.toMatch(/as good as new|as strong as|invisible|guarantee|certified/i);
    expect(text).toContain('SIMULATED RUN, DEMO DATA');
    const real = factsOf();
    const report = { ...real.report, simulated: false };
    expect(textOf(renderHtml(certificate({ ...real, report })))).not.toMatch(/simulated run/i);
  });

  test('names chain or journal in its code, whichever its hash is of', () => {
    const chain = { seq: 3, hash: 'b4'.repeat(32), unitKey: null };
    const facts = factsOf(GOOD_JOB, {}, { chain });
    expect(textOf(renderHtml(certificate(facts)))).toContain(
      `meniscus:record:demo-1:${chain.hash}`,
    );
    const alone = factsOf();
    expect(textOf(renderHtml(certificate(alone)))).toContain(
      `meniscus:journal:demo-1:${alone.report.journal.sha256}`,
    );
  });
});
