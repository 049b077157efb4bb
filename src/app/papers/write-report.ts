/**
 * Writes a job's papers: report.json, and report and certificate as HTML and PDF, beside the
 * journal or in another folder. Everything is produced before anything is written, and each file
 * gets a temporary name first, so that a failure leaves no half page.
 */
import { existsSync, realpathSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { filled } from '../../core/phrases.ts';
import { problemLine } from '../../core/settings.ts';
import type { PageDocument } from '../../document/blocks.ts';
import { certificate } from '../../document/certificate/certificate.ts';
import { type WhatWasHeld, whatWasChecked, withChainMark } from '../../document/chain-mark.ts';
import type { DocumentFacts } from '../../document/facts.ts';
import { renderHtml } from '../../document/html.tsx';
import type { PaperWords } from '../../document/paper-words.ts';
import { codeOf } from '../../document/record-code.ts';
import { reportDocument } from '../../document/report/report-document.ts';
import { makePrivateFolder } from '../../journal/private-file.ts';
import type { JournalContents } from '../../journal/read-journal.ts';
import { machineReport } from '../../report/machine-report.ts';
import type { ReportData } from '../../report/report-data.ts';
import { loadRepairJournal } from '../prepare/load-journal.ts';
import { paperWordsOfRecord } from '../prepare/paper-words.ts';
import type { JobWords } from '../prepare/terminal-words.ts';
import { documentFactsOf, type FactSources } from './document-facts.ts';
import { type NamedPlace, namedFileProblem, writeNamed } from './named-file.ts';
import { readPageFonts } from './page-fonts.ts';
import { verdictLines } from './verdict-lines.ts';

export const FORMATS = ['html', 'pdf'] as const;
export type Format = (typeof FORMATS)[number];

const PAGES = { report: reportDocument, certificate } as const;
export type PageName = keyof typeof PAGES;

export interface ReportOptions extends FactSources {
  readonly formats?: readonly Format[];
  readonly pages?: readonly PageName[];
  /** Beside the journal by default; there the job's own pages may be overwritten. */
  readonly out?: NamedFolder;
  /** Of the record's own language by default. */
  readonly words?: JobWords;
  /** The journal, where it was read a moment ago: reading takes as long as producing a page. */
  readonly read?: JournalContents | null;
}

export interface NamedFolder {
  readonly folder: string;
  readonly place: NamedPlace;
}

export interface WrittenReport {
  readonly ok: boolean;
  /** Messages for the person. */
  readonly lines: readonly string[];
  /** Paths of the written files. */
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
  const journal =
    read === null ? loadRepairJournal(journalPath) : { ok: true as const, value: read };
  if (!journal.ok) return failed(journal.problems.map(problemLine));
  const facts = await documentFactsOf(journalPath, journal.value, options);
  if (!facts.ok) return failed(facts.problems.map(problemLine));
  const beside = dirname(journalPath);
  const folder = options.out?.folder ?? beside;
  try {
    const held = heldOf(facts.value, journal.value, options);
    const words = options.words ?? paperWordsOfRecord(journal.value.header.display?.language);
    const files = await filesOf(facts.value, held, { ...options, words });
    const taken = isSameFolder(folder, beside) ? [] : problemsOf(files, options.out);
    if (taken.length > 0) return failed(taken.map(problemLine));
    makePrivateFolder(folder);
    for (const { name, content } of files) writeNamed(join(folder, name), content);
    const paths = files.map(({ name }) => join(folder, name));
    const shown = paths.filter((path) => !path.endsWith('.json'));
    const data = facts.value.report;
    const { notInChain } = words.terminal.verdict;
    const marked = shown.length > 0 && held.journal === 'not recorded' ? [notInChain] : [];
    const lines = [
      ...verdictLines(data, words),
      ...marked,
      ...shown.map((path) => writtenLine(path, words)),
    ];
    return { ok: true, files: paths, data, journal: journal.value, lines };
  } catch (error) {
    return failed([`report: ${String(error)}; ${JOURNAL_WORDS[`${journal.value.intact}`]}`]);
  }
}

const JOURNAL_WORDS = {
  true: 'the journal is complete without it',
  false: 'the journal was changed',
  null: 'the journal is INCOMPLETE',
} as const;

const problemsOf = (files: readonly PageFile[], out: NamedFolder | undefined) =>
  files.flatMap(({ name }) =>
    out === undefined ? [] : (namedFileProblem(join(out.folder, name), out.place) ?? []),
  );

const isSameFolder = (one: string, other: string): boolean =>
  existsSync(one) && realpathSync.native(one) === realpathSync.native(other);

const writtenLine = (path: string, { terminal: { verdict } }: JobWords): string =>
  filled(/certificate/.test(path) ? verdict.certificate : verdict.report, { path });

interface PageFile {
  readonly name: string;
  readonly content: string | Uint8Array;
}

async function filesOf(
  facts: DocumentFacts,
  held: WhatWasHeld,
  {
    formats = FORMATS,
    pages = ['report', 'certificate'],
    words,
  }: ReportOptions & { readonly words: PaperWords },
): Promise<readonly PageFile[]> {
  const files: PageFile[] = [];
  if (pages.includes('report')) {
    files.push({
      name: 'report.json',
      content: `${JSON.stringify(machineReport(facts.report), null, 2)}\n`,
    });
  }
  for (const page of pages) {
    files.push(...(await pageFiles(page, pageOf(page, facts, held, words), facts, formats)));
  }
  return files;
}

function pageOf(
  name: PageName,
  facts: DocumentFacts,
  held: WhatWasHeld,
  words: PaperWords,
): PageDocument {
  const page = PAGES[name](facts, words);
  const checked = name === 'report' ? [whatWasChecked(facts, held, words)] : [];
  const whole = { ...page, blocks: [...page.blocks, ...checked] };
  return withChainMark(whole, held.journal, words.certificate);
}

function heldOf(
  { chain }: DocumentFacts,
  { header }: JournalContents,
  { differs, personalSha256 }: ReportOptions,
): WhatWasHeld {
  const recorded = chain === null ? 'not recorded' : 'agrees';
  return {
    journal: differs === undefined ? recorded : 'differs',
    people: (personalSha256 ?? header.personalSha256) === null ? 'not recorded' : 'agree',
  };
}

async function pageFiles(
  name: PageName,
  page: PageDocument,
  facts: DocumentFacts,
  formats: readonly Format[],
): Promise<readonly PageFile[]> {
  if (formats.length === 0) return [];
  // Heavy, and not needed where only data are written.
  const { renderPdf } = await import('../../document/pdf.ts');
  const pdf = await renderPdf(page, { fonts: readPageFonts(), info: infoOf(page, facts) });
  const contents: Readonly<Record<Format, string | Uint8Array>> = {
    // Printed with the text size that was found to fit.
    html: renderHtml(page, pdf.scale),
    pdf: pdf.bytes,
  };
  return formats.map((format) => ({ name: `${name}.${format}`, content: contents[format] }));
}

/**
 * The job's own time: the same record gives the same bytes on any day. The code is a keyword, so
 * that a program can read it from the file.
 */
function infoOf({ title }: PageDocument, facts: DocumentFacts) {
  const { startedAt } = facts.report;
  // biome-ignore lint/style/noRestrictedGlobals: it holds the record's time and reads no clock.
  const dateAt = (time: string | number): Date => new Date(time);
  const began = dateAt(startedAt);
  const Keywords = codeOf(facts);
  return {
    Title: title,
    Keywords,
    CreationDate: Number.isNaN(began.getTime()) ? dateAt(0) : began,
  };
}
