/**
 * Checks what an entry says of a record's folder: the beginning of its journal, the whole journal,
 * what follows from it, and the pages beside it.
 */
import type { ChainEntry } from '../chain/chain-entry.ts';
import type { LaterEntries } from './later-entries.ts';
import type { Found, Tally } from './tally.ts';
import { unrecordedJobs } from './unrecorded.ts';
import { beginFinding, journalFinding, journalPathOf, reportRemark } from './verify-files.ts';
import { checkPapers, hasUncovered } from './verify-papers.ts';

/** What the entry says and its journal does not; empty where it follows from its journal. */
export type Derive = (entry: ChainEntry) => Found;

export interface RecordCounts {
  readonly journals: number;
  /** Journals from which the entry was derived again. */
  readonly derived: number;
  /** Pages and photographs that were compared with a hash. */
  readonly papers: number;
}

export function createRecordCheck(
  folder: string,
  { papers: lastAbout }: LaterEntries,
  derive: Derive | null,
  tally: Tally,
) {
  const ids = new Set<string>();
  const uncovered: string[] = [];
  const counts = { journals: 0, derived: 0, papers: 0 };
  const takeJournal = (entry: ChainEntry): void => {
    const path = journalPathOf(folder, entry);
    if (path === null) return;
    counts.journals += 1;
    const finding = journalFinding(path, entry);
    tally.add(finding);
    if (finding !== null || derive === null || entry.kind !== 'repair') return;
    counts.derived += 1;
    tally.addAll(derive(entry));
  };
  const takePapers = (entry: ChainEntry): void => {
    const about = lastAbout.get(entry.id) ?? 0;
    if (entry.kind === 'papers' && about === entry.seq) {
      const checked = checkPapers(folder, entry);
      counts.papers += checked.files;
      tally.addAll(checked);
    }
    if (entry.kind !== 'repair') return;
    ids.add(entry.id);
    if (about > 0) return;
    tally.remark(reportRemark(folder, entry));
    if (hasUncovered(folder, entry.id)) uncovered.push(entry.id);
  };
  return {
    take: (entry: ChainEntry): void => {
      tally.add(beginFinding(folder, entry));
      takeJournal(entry);
      takePapers(entry);
    },
    counts: (): RecordCounts => counts,
    finish: (): void => {
      tally.remark(uncoveredRemark(uncovered));
      for (const id of unrecordedJobs(folder, ids)) tally.remark(unrecordedRemark(id));
    },
  };
}

const MOST_NAMED = 5;

/** Records of older versions, mostly. */
function uncoveredRemark(ids: readonly string[]): string | null {
  if (ids.length === 0) return null;
  const named = ids.slice(0, MOST_NAMED).join(', ');
  const more = ids.length > MOST_NAMED ? ` and ${ids.length - MOST_NAMED} more` : '';
  return `no entry vouches for the pages and photographs of ${named}${more}`;
}

const unrecordedRemark = (id: string): string =>
  `${id} has a journal but no entry of its end: it is still running, or was cut off before it`;
