/** Facts for the tests of certificate and report: hand-made jobs, demo data throughout. */
import DEFAULT_UNIT_FILE from '../../src/app/defaults/unit.json' with { type: 'json' };
import { budgetLinesOf } from '../../src/app/papers/journal-budgets.ts';
import { readPageFonts } from '../../src/app/papers/page-fonts.ts';
import type { PageDocument } from '../../src/document/blocks.ts';
import type { DocumentFacts } from '../../src/document/facts.ts';
import { type RenderedPdf, renderPdf } from '../../src/document/pdf.ts';
import { readJournal } from '../../src/journal/read-journal.ts';
import { reportDataOf } from '../../src/report/report-data.ts';
import { alarmEvent, at, GOOD_JOB, journalOf, STOPPED, type Telling } from '../report/job-story.ts';

export const JOB = {
  schema: 'meniscus/job@1',
  reference: 'demo-1',
  damage: { type: 'star-break', diameterMm: 22, pitMm: 2, legs: 5, longestLegMm: 10, depthMm: 1.5 },
  resin: { name: 'demo resin', lot: 'demo-lot-7' },
};

export function factsOf(
  events = GOOD_JOB,
  telling: Telling = {},
  outside: Partial<DocumentFacts> = {},
): DocumentFacts {
  const text = journalOf(events, { job: JOB, unit: DEFAULT_UNIT_FILE, ...telling });
  const read = readJournal(text, 'demo.jsonl');
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return {
    report: reportDataOf(read.value, budgetLinesOf(read.value)),
    snapshots: read.value.snapshots,
    recordId: 'demo-1',
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
    ...outside,
  };
}

export const PANE =
  '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 360 190"><path d="M5 5H355V175H5Z" fill="none" stroke="#000"/></svg>';

/** Two by two dots: grey, and of a colour that lets light through. */
export const DOT_PNG = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAIAAAACCAAAAABX3VL4AAAADklEQVR4nGNoaGBoaAAABgYCASzBUNcAAAAASUVORK5CYII=',
  'base64',
);
export const GLASSY_PNG = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAIAAAACCAYAAABytg0kAAAAEUlEQVR4nGNocFCYAMIMMAYAM7IFwe2A1BwAAAAASUVORK5CYII=',
  'base64',
);

const NAME_40 = 'Abcdefghij Klmnopqrst Uvwxyzabcd Efghijk';
const CHANNELS = [
  'pressure',
  'glass temperature',
  'irradiance',
  'barometer',
  'heat sink',
  'supply',
];

const PAST = {
  name: NAME_40,
  lot: NAME_40,
  expiresOn: '1999-12-31',
  openedOn: '1999-01-01',
  usableAfterOpeningDays: 10,
};
const EVERYTHING_AGAINST = {
  day: '2000-01-20',
  resin: PAST,
  pitResin: PAST,
  intake: {
    sheet: { damage: { moisture: 'dry' } },
    assessment: {
      answer: 'not-allowed-here',
      reasons: CHANNELS.map((name) => ({
        words: `No repair near ${name}, which is a rule with many words`,
        ruleSet: 'Rule set whose name is as long as any name of a rule set may be',
        edition: 'edition with a long name',
        measured: '22 mm',
      })),
      technical: { answer: 'cannot', reasons: CHANNELS },
    },
  },
  overrides: CHANNELS.map((name) => ({
    item: name,
    reason: 'The customer waits. ',
    against: [`${name}: done on 1999-10-01, due on 1999-11-01`],
  })),
};

/** As much as anybody can put on one page. */
export const longFacts = (): DocumentFacts =>
  factsOf(
    [
      ...STOPPED,
      ...(
        ['glass-cold', 'set-point-lost', 'daylight-near', 'supply-low', 'lamp-weak'] as const
      ).map((name, i) => at(31 + i, alarmEvent(name, 'hold'))),
    ],
    {
      about: EVERYTHING_AGAINST,
      end: {
        reason: 'alarm',
        why: 'Expected one thing, seen quite another. '.repeat(8),
        outcome: null,
      },
    },
    {
      personal: { technician: NAME_40, customer: NAME_40, vehicle: NAME_40 },
      intake: {
        sheet: { damage: { type: 'star-break' } },
        drawingSvg: PANE,
        briefSvg: PANE,
        assessment: {
          answer: 'not-allowed-here',
          ruleSets: Array.from({ length: 10 }, (_, i) => ({
            name: `Rule set ${i} whose name is as long as any name of a rule set may be`,
            edition: `Edition ${i}, amended by a notice with a long name`,
          })),
          reasons: [
            {
              words: 'No repair in the strip before the driver',
              ruleSet: 'Demo rules',
              edition: 'demo edition',
              source: 'demo',
              measured: '22 mm',
              limit: 'at most 5 mm',
            },
          ],
          technical: { answer: 'needs-a-person', reasons: ['Nobody said whether it is dry.'] },
        },
      },
      calibrations: CHANNELS.map((channel) => ({
        channel,
        on: '2026-03-01',
        due: '2027-03-01',
        by: NAME_40,
        reference: 'demo reference',
        standardUncertainty: '0.12 kPa',
        words: '',
      })),
      overrides: CHANNELS.map((channel) => ({
        at: '2026-03-02T09:00:00Z',
        what: `Calibration of ${channel} overdue`,
        by: NAME_40,
        reason: 'The customer waits, and the reference agreed this morning. '.repeat(3),
      })),
      amendments: CHANNELS.map((channel) => ({
        at: '2026-03-03T09:00:00Z',
        text: `Lot typed wrongly beside ${channel}. `.repeat(6),
        by: NAME_40,
      })),
      chain: { seq: 12, hash: 'a3'.repeat(32), unitKey: null },
      photos: {
        before: { bytes: GLASSY_PNG, type: 'image/png' },
        after: { bytes: GLASSY_PNG, type: 'image/png' },
      },
      agreement: 'A mark may stay visible; who pays for a new pane was told. '.repeat(16),
    },
  );

const FONTS = readPageFonts();

export const pdfOf = (page: PageDocument): Promise<RenderedPdf> =>
  renderPdf(page, {
    fonts: FONTS,
    info: { Title: page.title, CreationDate: new Date('2000-01-01T08:00:00Z') },
  });
