/**
 * Writes a job's papers: report.json, and report and certificate as HTML and PDF, beside the
 * journal or in another folder. Everything is produced before anything is written, and each file
 * gets a temporary name first, so that a failure leaves no half page.
 */
import { existsSync, realpathSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { escapedValue } from '../../core/plain-text.ts';
import { said } from '../../core/sayings.ts';
import { problemLine } from '../../core/settings.ts';
import type { PageDocument } from '../../document/blocks.ts';
import { certificate } from '../../document/certificate/certificate.ts';
import { type WhatWasHeld, whatWasChecked, withChainMark } from '../../document/chain-mark.ts';
import type { DocumentFacts } from '../../document/facts.ts';
import { renderHtml } from '../../document/html.tsx';
import { ENGLISH_PAPERS, type PaperWords } from '../../document/paper-words.ts';
import { verdictHeadline } from '../../document/report/claim-rows.ts';
import { reportDocument } from '../../document/report/report-document.ts';
import { makePrivateFolder } from '../../journal/private-file.ts';
import type { JournalContents } from '../../journal/read-journal.ts';
import type { Objection } from '../../report/claims/claim.ts';
import { type Claim, shortTitleOf } from '../../report/claims/claim-table.ts';
import { OBJECTIONS } from '../../report/claims/objections.ts';
import { machineReport } from '../../report/machine-report.ts';
import type { ReportData } from '../../report/report-data.ts';
import { joulesPerCm2 } from '../../report/words.ts';
import { loadRepairJournal } from '../prepare/load-journal.ts';
import { paperWordsOfRecord } from '../prepare/paper-words.ts';
import { documentFactsOf, type FactSources } from './document-facts.ts';
import { type NamedPlace, namedFileProblem, writeNamed } from './named-file.ts';
import { readPageFonts } from './page-fonts.ts';

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
  readonly words?: PaperWords;
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
    const marked = shown.length > 0 && held.journal === 'not recorded' ? [NOT_RECORDED] : [];
    const lines = [...verdictLines(data, words), ...marked, ...shown.map(writtenLine)];
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

const NOT_RECORDED = 'Not recorded in a chain: every sheet says so.';

const problemsOf = (files: readonly PageFile[], out: NamedFolder | undefined) =>
  files.flatMap(({ name }) =>
    out === undefined ? [] : (namedFileProblem(join(out.folder, name), out.place) ?? []),
  );

const isSameFolder = (one: string, other: string): boolean =>
  existsSync(one) && realpathSync.native(one) === realpathSync.native(other);

const writtenLine = (path: string): string =>
  `${/certificate/.test(path) ? 'Certificate' : 'Report'}: ${path}`;

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
  // The report is in the language of the record.
  const own = name === 'report' ? ENGLISH_PAPERS : words;
  const page = PAGES[name](facts, own);
  const checked = name === 'report' ? [whatWasChecked(facts, held)] : [];
  const whole = { ...page, blocks: [...page.blocks, ...checked] };
  return withChainMark(whole, held.journal, own.certificate);
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
  { report }: DocumentFacts,
  formats: readonly Format[],
): Promise<readonly PageFile[]> {
  if (formats.length === 0) return [];
  // Heavy, and not needed where only data are written.
  const { renderPdf } = await import('../../document/pdf.ts');
  const pdf = await renderPdf(page, { fonts: readPageFonts(), info: infoOf(page, report) });
  const contents: Readonly<Record<Format, string | Uint8Array>> = {
    // Printed with the text size that was found to fit.
    html: renderHtml(page, pdf.scale),
    pdf: pdf.bytes,
  };
  return formats.map((format) => ({ name: `${name}.${format}`, content: contents[format] }));
}

/** The job's own time: the same record gives the same bytes on any day. */
function infoOf({ title }: PageDocument, { startedAt }: ReportData) {
  // biome-ignore lint/style/noRestrictedGlobals: it holds the record's time and reads no clock.
  const dateAt = (time: string | number): Date => new Date(time);
  const began = dateAt(startedAt);
  return { Title: title, CreationDate: Number.isNaN(began.getTime()) ? dateAt(0) : began };
}

/** What was shown, by name, and everything that stands against the rest. */
function verdictLines(data: ReportData, words: PaperWords): readonly string[] {
  const { claims, doses } = data;
  const shown = claims
    .filter(({ state }) => state === 'shown')
    .map((one) => shortTitleOf(one, words.claims));
  const others = claims.filter(({ state }) => state !== 'shown');
  return [
    `Verdict: ${verdictHeadline(data, words.claims)}`,
    `Shown: ${shown.join(', ') || 'nothing'}`,
    ...againstLines(others, words),
    ...doses.map(doseLine),
  ];
}

/** What stands against several claims for the same reason is said once, with their names. */
function againstLines(claims: readonly Claim[], words: PaperWords): readonly string[] {
  const reasons = claims.flatMap((claim) =>
    claim.objections.map((objection) => ({ claim, objection, key: reasonOf(objection) })),
  );
  return reasons.flatMap(({ objection, key }, at) => {
    if (reasons.findIndex((one) => one.key === key) < at) return [];
    const against = reasons.filter((one) => one.key === key).map(({ claim }) => claim);
    const names =
      against.length > 1
        ? ` (${against.map((one) => shortTitleOf(one, words.claims)).join(', ')})`
        : '';
    return [
      `${STATE_LABELS[OBJECTIONS[objection.id].leaves]}: ${words.claims.objections[objection.id]}${names}`,
      ...objection.said.map((line) => `  ${escapedValue(said(line, words.tongue))}`),
    ];
  });
}

const reasonOf = ({ id, lines }: Objection): string => [id, ...lines].join('\n');

const STATE_LABELS = { 'not shown': 'NOT SHOWN', 'not met': 'NOT MET' } as const;

function doseLine({ portion, doseJPerM2, targetJPerM2, uncertainty, verdict }: ReportData['dose']) {
  const joules = (jPerM2: number): string => joulesPerCm2(jPerM2).toFixed(2);
  const target = targetJPerM2 === null ? '' : ` of ${joules(targetJPerM2)}`;
  const shown =
    uncertainty === null
      ? ''
      : ` (at least ${joules(uncertainty.shownJPerM2)} with its uncertainty)`;
  const name = portion === 'fill and pit' ? 'Dose' : `Dose of the ${portion}`;
  if (verdict === 'not recorded') {
    return `${name}: not recorded to the end; ${joules(doseJPerM2)}${target} J/cm2 until the record breaks off`;
  }
  return `${name}: ${joules(doseJPerM2)}${target} J/cm2, ${verdict}${shown}`;
}
