/**
 * `meniscus report`: writes report.html and report.json beside a journal, from the journal alone.
 * Each is written under another name first, so that a failure leaves no half report.
 */
import { renameSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { budgetLinesOf } from '../journal-budgets.ts';
import { type ReportData, reportDataOf } from '../records/report-data.ts';
import { renderReportPage } from '../records/report-page.tsx';
import { joulesPerCm2 } from '../records/report-words.ts';
import { problemLine } from '../settings.ts';
import { EXIT } from './exit-codes.ts';
import { loadJournal } from './load-journal.ts';

export interface WrittenReport {
  readonly ok: boolean;
  /** What to tell the person. */
  readonly lines: readonly string[];
}

export function writeReport(journalPath: string): WrittenReport {
  const journal = loadJournal(journalPath);
  if (!journal.ok) return { ok: false, lines: journal.problems.map(problemLine) };
  const data = reportDataOf(journal.value, budgetLinesOf(journal.value));
  const page = renderReportPage(data, journal.value.snapshots);
  const folder = dirname(journalPath);
  try {
    writeWhole(join(folder, 'report.json'), `${JSON.stringify(data, null, 2)}\n`);
    writeWhole(join(folder, 'report.html'), page);
  } catch (error) {
    return { ok: false, lines: [`report: ${String(error)}; the journal is complete without it`] };
  }
  return { ok: true, lines: [...verdictLines(data), `Report: ${join(folder, 'report.html')}`] };
}

export function reportCommand(file: string): number {
  const { ok, lines } = writeReport(file);
  const stream = ok ? process.stdout : process.stderr;
  stream.write(`${lines.join('\n')}\n`);
  return ok ? EXIT.completed : EXIT.badInput;
}

function writeWhole(path: string, text: string): void {
  const fresh = `${path}.part`;
  writeFileSync(fresh, text);
  renameSync(fresh, path);
}

function verdictLines({ verdict, dose }: ReportData): readonly string[] {
  const joules = (jPerM2: number): string => joulesPerCm2(jPerM2).toFixed(2);
  const target = dose.targetJPerM2 === null ? '' : ` of ${joules(dose.targetJPerM2)}`;
  const { uncertainty } = dose;
  const shown =
    uncertainty === null
      ? ''
      : ` (at least ${joules(uncertainty.shownJPerM2)} with its uncertainty)`;
  return [
    `Verdict: ${verdict.process}`,
    `Dose: ${joules(dose.doseJPerM2)}${target} J/cm2, ${dose.verdict}${shown}`,
  ];
}
