/**
 * Gathers the facts for certificate and report: from the journal, from the files in the job's
 * folder, and from what the caller knows of intake, care and chain. A fact that is not passed in
 * stays "not recorded".
 */
import { dirname, resolve } from 'node:path';
import type { Checked } from '../../core/settings.ts';
import type { DocumentFacts } from '../../document/facts.ts';
import { type JournalContents, withoutEnd } from '../../journal/read-journal.ts';
import { reportDataOf } from '../../report/report-data.ts';
import { jobPersonalPath, PERSONAL_FILE, placeOfAttempt } from '../../store/chain/paths.ts';
import { readPersonal } from '../../store/chain/personal-file.ts';
import { jobFactsIn, overridesIn } from '../prepare/job-facts.ts';
import { budgetLinesOf } from './journal-budgets.ts';
import { photoInFolder, readPhoto } from './read-photo.ts';

/** What a journal does not hold; each may be omitted. */
export type OutsideFacts = Partial<
  Omit<DocumentFacts, 'report' | 'snapshots' | 'recordId' | 'photos'>
>;

export interface FactSources {
  readonly outside?: OutsideFacts;
  /** How this journal differs from the chain; a differing journal is not judged. */
  readonly differs?: string;
  /** Known to be incomplete, whatever can be read of it. */
  readonly incomplete?: boolean;
  /** Hash of the personal data from the chain; from the journal where none is passed in. */
  readonly personalSha256?: string | null;
  /** Replaces the photographs in the job's folder. */
  readonly photoBefore?: string;
  readonly photoAfter?: string;
}

export async function documentFactsOf(
  journalPath: string,
  journal: JournalContents,
  {
    outside = {},
    differs,
    incomplete = false,
    personalSha256,
    photoBefore,
    photoAfter,
  }: FactSources = {},
): Promise<Checked<DocumentFacts>> {
  const folder = dirname(resolve(journalPath));
  const before = await readPhoto(photoBefore ?? photoInFolder(folder, 'before'));
  const after = await readPhoto(photoAfter ?? photoInFolder(folder, 'after'));
  if (!before.ok || !after.ok) {
    return { ok: false, problems: [before, after].flatMap((one) => (one.ok ? [] : one.problems)) };
  }
  const people = personalIn(folder, personalSha256 ?? journal.header.personalSha256);
  const remarks = [differs, people.remark].filter((words) => words !== undefined);
  const read = { ...journal, remarks: [...remarks, ...journal.remarks] };
  const whole = incomplete ? withoutEnd(read) : read;
  const judged = differs === undefined ? whole : { ...whole, intact: false };
  return {
    ok: true,
    value: {
      report: reportDataOf(judged, budgetLinesOf(journal)),
      snapshots: journal.snapshots,
      recordId: placeOfAttempt(folder).id,
      personal: people.fields,
      personalRemovedOn: null,
      ...jobFactsIn(journal.header),
      overrides: overridesIn(journal.header, people.fields),
      amendments: null,
      chain: null,
      ...outside,
      photos: { before: before.value, after: after.value },
    },
  };
}

interface People {
  readonly fields: DocumentFacts['personal'];
  readonly remark?: string;
}

/** Only recorded ones; an older journal does not say which they are. */
function personalIn(folder: string, recorded: string | null): People {
  const found = readPersonal(jobPersonalPath(folder));
  if (found.state === 'missing') return { fields: null };
  const keeps = recorded === null || found.sha256 === recorded;
  if (found.state === 'there' && keeps) return { fields: found.personal.fields };
  const remark = `${PERSONAL_FILE} is not the recorded file: no one is named.`;
  return { fields: null, remark };
}
