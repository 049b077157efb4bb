/**
 * Derives what the chain says of a repair from its journal again: the frames are run through the
 * controller, and the results are judged again. An entry or a journal that was changed with its
 * hashes made again is found here. A journal of an older layout may rightly decide otherwise today,
 * so that what differs there is a remark.
 */
import { join } from 'node:path';
import { configOfHeader } from '../../app/attempts/attempt-entry.ts';
import { loadRepairJournal } from '../../app/prepare/load-journal.ts';
import { replayJournal } from '../../app/replay.ts';
import { canonicalJson } from '../../core/canonical-json.ts';
import { answerAt, textAt } from '../../core/fields.ts';
import { problemLine } from '../../core/settings.ts';
import { JOURNAL_SCHEMA } from '../../journal/columns.ts';
import type { JournalContents } from '../../journal/read-journal.ts';
import { REPAIR } from '../../procedure/repair/repair.ts';
import { INCOMPLETE } from '../../report/verdict.ts';
import type { ChainEntry } from '../../store/chain/chain-entry.ts';
import { type Finding, findingLine } from '../../store/chain/finding.ts';
import { JOURNAL_FILE } from '../../store/chain/paths.ts';
import { type RepairBody, UNREADABLE } from '../../store/chain/repair-body.ts';
import type { Found } from '../../store/verify/tally.ts';
import type { Derive } from '../../store/verify/verify-record.ts';
import { bodyFromJournal } from './entry-from-journal.ts';

export const deriveIn =
  (folder: string): Derive =>
  (entry) => {
    const path = join(folder, entry.id, JOURNAL_FILE);
    const journal = loadRepairJournal(path);
    if (!journal.ok) return unread(entry, journal.problems.map(problemLine).join(' '));
    const derived = bodyFromJournal(folder, entry.id, journal.value);
    const findings = [
      ...checksumFinding(entry, journal.value),
      ...fieldFindings(entry, derived, journal.value),
      ...decisionFindings(entry, journal.value, path),
    ];
    const isOld = textAt(journal.value.header, 'schema') !== JOURNAL_SCHEMA;
    return isOld
      ? {
          findings: [],
          remarks: findings.map((finding) => `older layout: ${findingLine(finding)}`),
        }
      : { findings, remarks: [] };
  };

const findingAt = (
  { seq, id }: ChainEntry,
  what: string,
  expected: string,
  found: string,
): Finding => ({ where: 'journal', seq, id, what, expected, found });

/** An entry that judges nothing may stand over a journal that cannot be read; no other one may. */
function unread(entry: ChainEntry, why: string): Found {
  const verdict = textAt(entry.body, 'result', 'verdict');
  if (verdict === INCOMPLETE || verdict === UNREADABLE) {
    return { findings: [], remarks: [`${entry.id}: ${why}`] };
  }
  const what = 'the entry, derived from the journal again';
  return { findings: [findingAt(entry, what, 'a journal that can be read', why)], remarks: [] };
}

const checksumFinding = (entry: ChainEntry, { intact }: JournalContents): readonly Finding[] =>
  intact === false
    ? [findingAt(entry, 'checksum in the last line', 'that of the file', 'another')]
    : [];

/** What does not follow from the journal: when and by what it was entered, and which files there were. */
const OUTSIDE: ReadonlySet<string> = new Set([
  'meniscus',
  'endedAt',
  'entered',
  'journal',
  'report',
]);

function fieldFindings(
  entry: ChainEntry,
  derived: RepairBody,
  { footer }: JournalContents,
): readonly Finding[] {
  // The run knew that its journal broke off, and judged nothing.
  const brokeOff = footer === null && textAt(entry.body, 'result', 'verdict') === INCOMPLETE;
  const skipped = brokeOff ? ['result', 'lastsS'] : [];
  return Object.entries(derived).flatMap(([field, value]) => {
    const stated = answerAt(entry.body, field);
    // Entries of older versions lack some fields.
    if (stated === undefined || OUTSIDE.has(field) || skipped.includes(field)) return [];
    const [expected, found] = [canonicalJson(value), canonicalJson(stated)];
    return expected === found
      ? []
      : [findingAt(entry, `${field}, derived from the journal again`, expected, found)];
  });
}

function decisionFindings(
  entry: ChainEntry,
  journal: JournalContents,
  path: string,
): readonly Finding[] {
  const config = configOfHeader(journal.header, path);
  if (!config.ok) {
    const found = config.problems.map(problemLine).join(' ');
    return [findingAt(entry, 'settings of the journal', 'settings that a job can have', found)];
  }
  const [first] = replayJournal(REPAIR, config.value, journal).differences;
  if (first === undefined) return [];
  const { timeS, what, recorded, replayed } = first;
  return [findingAt(entry, `${what} at ${timeS} s, decided again`, replayed, recorded)];
}
