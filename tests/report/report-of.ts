/** The report of a hand-made job, and what it says of one claim. */
import type { Event } from '../../src/core/events.ts';
import { readJournal } from '../../src/journal/read-journal.ts';
import type { Claim, ClaimId } from '../../src/report/claims/claim-table.ts';
import { type ReportData, reportDataOf } from '../../src/report/report-data.ts';
import { GOOD_JOB, journalOf, type Telling } from './job-story.ts';

export function reportOf(
  events: readonly Event[] = GOOD_JOB,
  telling: Telling = {},
  change: (text: string) => string = (text) => text,
): ReportData {
  const read = readJournal(change(journalOf(events, telling)), 'demo.jsonl');
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return reportDataOf(read.value, []);
}

export function claimIn({ claims }: ReportData, id: ClaimId): Claim {
  const [claim, ...more] = claims.filter((one) => one.id === id);
  if (claim === undefined || more.length > 0) throw new Error(`not one claim ${id}`);
  return claim;
}
