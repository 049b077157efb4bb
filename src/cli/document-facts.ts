/**
 * Gathers what certificate and report tell: from the journal, from the files in the job's folder, and
 * from whatever the caller knows of intake, care and chain. What nobody hands in stays "not recorded".
 */
import { basename, dirname, resolve } from 'node:path';
import { budgetLinesOf } from '../journal-budgets.ts';
import type { DocumentFacts } from '../records/document/facts.ts';
import type { JournalContents } from '../records/read-journal.ts';
import { reportDataOf } from '../records/report-data.ts';
import { jobPersonalPath } from '../records/store/paths.ts';
import { readPersonal } from '../records/store/personal-file.ts';
import type { Checked } from '../settings.ts';
import { aboutIn, overridesIn } from './job-about.ts';
import { photoInFolder, readPhoto } from './read-photo.ts';

/** What a journal does not hold; each may be left out. */
export type OutsideFacts = Partial<
  Omit<DocumentFacts, 'report' | 'snapshots' | 'recordId' | 'photos'>
>;

export interface FactSources {
  readonly outside?: OutsideFacts;
  /** Instead of the photographs in the job's folder. */
  readonly photoBefore?: string;
  readonly photoAfter?: string;
}

export async function documentFactsOf(
  journalPath: string,
  journal: JournalContents,
  { outside = {}, photoBefore, photoAfter }: FactSources = {},
): Promise<Checked<DocumentFacts>> {
  const folder = dirname(resolve(journalPath));
  const before = await readPhoto(photoBefore ?? photoInFolder(folder, 'before'));
  const after = await readPhoto(photoAfter ?? photoInFolder(folder, 'after'));
  if (!before.ok || !after.ok) {
    return { ok: false, problems: [before, after].flatMap((one) => (one.ok ? [] : one.problems)) };
  }
  return {
    ok: true,
    value: {
      report: reportDataOf(journal, budgetLinesOf(journal)),
      snapshots: journal.snapshots,
      recordId: basename(folder),
      personal: personalIn(folder),
      personalRemovedOn: null,
      ...aboutIn(journal.header),
      overrides: overridesIn(journal.header, personalIn(folder)),
      amendments: null,
      chain: null,
      ...outside,
      photos: { before: before.value, after: after.value },
    },
  };
}

function personalIn(folder: string): DocumentFacts['personal'] {
  const found = readPersonal(jobPersonalPath(folder));
  return found.state === 'there' ? found.personal.fields : null;
}
