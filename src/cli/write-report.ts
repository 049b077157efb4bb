/**
 * Writes what is to be read of a job: report.json, and report and certificate as HTML and PDF, beside
 * the journal or in another folder. Everything is made before anything is written, and each file is
 * written under another name first, so that a failure leaves no half page.
 */
import { mkdirSync, renameSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { escapedValue } from '../plain-text.ts';
import type { PageDocument } from '../records/document/blocks.ts';
import { certificate } from '../records/document/certificate.ts';
import type { DocumentFacts } from '../records/document/facts.ts';
import { renderHtml } from '../records/document/html.tsx';
import { reportDocument } from '../records/document/report-document.ts';
import type { JournalContents } from '../records/read-journal.ts';
import type { ReportData } from '../records/report-data.ts';
import { verdictHeadline } from '../records/report-reservations.ts';
import { joulesPerCm2 } from '../records/report-words.ts';
import { problemLine } from '../settings.ts';
import { documentFactsOf, type FactSources } from './document-facts.ts';
import { loadJournal } from './load-journal.ts';
import { readPageFonts } from './page-fonts.ts';

export const FORMATS = ['html', 'pdf'] as const;
export type Format = (typeof FORMATS)[number];

const PAGES = { report: reportDocument, certificate } as const;
export type PageName = keyof typeof PAGES;

export interface ReportOptions extends FactSources {
  readonly formats?: readonly Format[];
  readonly pages?: readonly PageName[];
  /** Beside the journal where none is named. */
  readonly out?: string;
  /** The journal where it was read a moment ago: reading it takes as long as a page. */
  readonly read?: JournalContents | null;
}

export interface WrittenReport {
  readonly ok: boolean;
  /** What to tell the person. */
  readonly lines: readonly string[];
  /** Paths of what was written. */
  readonly files: readonly string[];
  readonly data: ReportData | null;
  readonly journal: JournalContents | null;
}

const failed = (lines: readonly string[]): WrittenReport => ({
  ok: false,
  lines,
  files: [],
  data: null,
  journal: null,
});

export async function writeReport(
  journalPath: string,
  options: ReportOptions = {},
): Promise<WrittenReport> {
  const { read = null } = options;
  const journal = read === null ? loadJournal(journalPath) : { ok: true as const, value: read };
  if (!journal.ok) return failed(journal.problems.map(problemLine));
  const facts = await documentFactsOf(journalPath, journal.value, options);
  if (!facts.ok) return failed(facts.problems.map(problemLine));
  const folder = options.out ?? dirname(journalPath);
  try {
    const files = await filesOf(facts.value, options);
    mkdirSync(folder, { recursive: true });
    for (const { name, content } of files) writeWhole(join(folder, name), content);
    const paths = files.map(({ name }) => join(folder, name));
    const shown = paths.filter((path) => !path.endsWith('.json'));
    const data = facts.value.report;
    const lines = [...verdictLines(data), ...shown.map(told)];
    return { ok: true, files: paths, data, journal: journal.value, lines };
  } catch (error) {
    return failed([`report: ${String(error)}; the journal is complete without it`]);
  }
}

const told = (path: string): string =>
  `${/certificate/.test(path) ? 'Certificate' : 'Report'}: ${path}`;

interface PageFile {
  readonly name: string;
  readonly content: string | Uint8Array;
}

async function filesOf(
  facts: DocumentFacts,
  { formats = FORMATS, pages = ['report', 'certificate'] }: ReportOptions,
): Promise<readonly PageFile[]> {
  const files: PageFile[] = [];
  if (pages.includes('report')) {
    files.push({ name: 'report.json', content: `${JSON.stringify(facts.report, null, 2)}\n` });
  }
  for (const page of pages) {
    files.push(...(await pageFiles(page, PAGES[page](facts), facts, formats)));
  }
  return files;
}

async function pageFiles(
  name: PageName,
  page: PageDocument,
  { report }: DocumentFacts,
  formats: readonly Format[],
): Promise<readonly PageFile[]> {
  if (formats.length === 0) return [];
  // Heavy, and not needed where only data are written.
  const { renderPdf } = await import('../records/document/pdf.ts');
  const pdf = await renderPdf(page, { fonts: readPageFonts(), info: infoOf(page, report) });
  const contents: Readonly<Record<Format, string | Uint8Array>> = {
    // Printed with the size of letters that was found to fit.
    html: renderHtml(page, pdf.scale),
    pdf: pdf.bytes,
  };
  return formats.map((format) => ({ name: `${name}.${format}`, content: contents[format] }));
}

/** The job's own time: the same record gives the same bytes on any day. */
function infoOf({ title }: PageDocument, { startedAt }: ReportData) {
  const began = new Date(startedAt);
  return { Title: title, CreationDate: Number.isNaN(began.getTime()) ? new Date(0) : began };
}

function writeWhole(path: string, content: string | Uint8Array): void {
  const fresh = `${path}.part`;
  writeFileSync(fresh, content);
  renameSync(fresh, path);
}

function verdictLines(data: ReportData): readonly string[] {
  const { reservations, doses } = data;
  return [
    `Verdict: ${verdictHeadline(data)}`,
    ...reservations.flatMap(({ support }) => support.map((line) => `  ${escapedValue(line)}`)),
    ...doses.map(doseLine),
  ];
}

function doseLine({ portion, doseJPerM2, targetJPerM2, uncertainty, verdict }: ReportData['dose']) {
  const joules = (jPerM2: number): string => joulesPerCm2(jPerM2).toFixed(2);
  const target = targetJPerM2 === null ? '' : ` of ${joules(targetJPerM2)}`;
  const shown =
    uncertainty === null
      ? ''
      : ` (at least ${joules(uncertainty.shownJPerM2)} with its uncertainty)`;
  const name = portion === 'fill and pit' ? 'Dose' : `Dose of the ${portion}`;
  return `${name}: ${joules(doseJPerM2)}${target} J/cm2, ${verdict}${shown}`;
}
