/** The chain's entry of a job that has a journal and no entry yet: running, or cut off before its end. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { budgetLinesOf } from '../../app/papers/journal-budgets.ts';
import { extrasIn } from '../../app/prepare/job-facts.ts';
import { loadRepairJournal } from '../../app/prepare/load-journal.ts';
import { problemLine } from '../../core/settings.ts';
import type { JournalContents } from '../../journal/read-journal.ts';
import { reportDataOf } from '../../report/report-data.ts';
import { fileSha256 } from '../../store/chain/file-sha256.ts';
import { JOURNAL_FILE, jobPersonalPath, REPORT_FILE } from '../../store/chain/paths.ts';
import { readPersonal } from '../../store/chain/personal-file.ts';
import { type RepairBody, repairBodyOf } from '../../store/chain/repair-body.ts';

export type FoundJob =
  | {
      readonly ok: true;
      readonly ended: boolean;
      readonly body: RepairBody;
      readonly personal: Readonly<Record<string, string>> | null;
    }
  | { readonly ok: false; readonly why: string };

export const startOf = (job: FoundJob): string => (job.ok ? job.body.startedAt : '');

export function entryFromJournal(folder: string, id: string): FoundJob {
  const journal = loadRepairJournal(join(folder, id, JOURNAL_FILE));
  if (!journal.ok) return { ok: false, why: journal.problems.map(problemLine).join(' ') };
  const personal = readPersonal(jobPersonalPath(join(folder, id)));
  return {
    ok: true,
    ended: journal.value.footer !== null,
    personal: personal.state === 'there' ? personal.personal.fields : null,
    body: bodyFromJournal(folder, id, journal.value),
  };
}

/** What the chain would say of the repair if it were entered now. */
export function bodyFromJournal(folder: string, id: string, journal: JournalContents): RepairBody {
  const at = (name: string): string => join(folder, id, name);
  const report = reportDataOf(journal, budgetLinesOf(journal));
  const endedAt = new Date(Date.parse(report.startedAt) + Math.round(report.lastsS * 1000));
  const hasReport = existsSync(at(REPORT_FILE));
  return repairBodyOf(report, {
    endedAt: endedAt.toISOString(),
    ...extrasIn(journal.header),
    entered: 'later, from its journal',
    journal: { file: JOURNAL_FILE, sha256: fileSha256(at(JOURNAL_FILE)) },
    report: hasReport ? { file: REPORT_FILE, sha256: fileSha256(at(REPORT_FILE)) } : null,
  });
}
