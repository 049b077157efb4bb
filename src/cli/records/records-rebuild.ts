/**
 * `meniscus records rebuild`: makes a new database, restores a chain where that can be proved,
 * enters jobs without an entry from their journals, and reports what was proved and what was not.
 */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { Command } from 'commander';
import { budgetLinesOf } from '../../app/papers/journal-budgets.ts';
import { extrasIn } from '../../app/prepare/job-facts.ts';
import { loadRepairJournal } from '../../app/prepare/load-journal.ts';
import { problemLine } from '../../core/settings.ts';
import { reportDataOf } from '../../report/report-data.ts';
import { fileSha256 } from '../../store/chain/file-sha256.ts';
import { findingLine } from '../../store/chain/finding.ts';
import { JOURNAL_FILE, jobPersonalPath, REPORT_FILE } from '../../store/chain/paths.ts';
import { readPersonal } from '../../store/chain/personal-file.ts';
import { type RepairBody, repairBodyOf } from '../../store/chain/repair-body.ts';
import type { RecordsStore } from '../../store/records-store.ts';
import type { Rebuilt } from '../../store/verify/rebuild.ts';
import { unrecordedJobs } from '../../store/verify/unrecorded.ts';
import { countWords } from '../terminal/count-words.ts';
import { EXIT } from '../terminal/exit-codes.ts';
import { complain, type RecordsOptions, withRecords } from '../terminal/open-records.ts';
import { print } from '../terminal/print.ts';
import { tellWorking } from '../terminal/progress.ts';

interface RebuildOptions extends RecordsOptions {
  readonly interrupted: boolean;
}

export function addRebuild(records: Command): void {
  records
    .command('rebuild')
    .description('rebuild the database from chain and journals; the old one is kept')
    .option('--interrupted', 'also enter jobs without an end; only while no job is running', false)
    .addHelpText('after', '\nExample: meniscus records rebuild\n')
    .action(async (_, command: Command) => {
      process.exitCode = await rebuild(command.optsWithGlobals<RebuildOptions>());
    });
}

async function rebuild({ records, interrupted }: RebuildOptions): Promise<number> {
  if (!existsSync(records)) {
    const accepted = 'a folder of records';
    complain([problemLine({ file: records, path: '', value: 'missing', accepted })]);
    return EXIT.badInput;
  }
  const { newerDatabase } = await import('../../store/index/index-file.ts');
  const newer = newerDatabase(records);
  if (newer !== null) {
    complain([problemLine(newer)]);
    return EXIT.badInput;
  }
  const at = new Date().toISOString();
  const { rebuildRecords } = await import('../../store/verify/rebuild.ts');
  tellWorking('Rebuilding the database');
  const rebuilt = rebuildRecords(records, at.replaceAll(/[:.]/g, '-'));
  print(`${linesOf(rebuilt).join('\n')}\n`);
  return withRecords(records, 'write', (store) => {
    enterUnrecorded(store, records, { at, interrupted });
    return rebuilt.chain === 'broken' ? EXIT.fault : EXIT.completed;
  });
}

const CHAIN_WORDS: Readonly<Record<Rebuilt['chain'], (rebuilt: Rebuilt) => string>> = {
  whole: ({ entries }) =>
    `Proved: ${entries === 1 ? 'the one entry' : `all ${entries} entries`} of the chain, link by link.`,
  restored: ({ entries, fromDatabase }) =>
    `The chain was restored: ${countWords(entries, 'entry', 'entries')}, ${fromDatabase} of them from the old database. Every link holds. Only a hash kept elsewhere can show that nothing is missing at the end.`,
  broken: ({ proven, entries, database }) =>
    `Proved: entries 1 to ${proven}. Not proved: the ${entries - proven} after them; ${database ? 'they are in the database, and ' : ''}the chain is left unchanged.`,
  empty: () =>
    'There is no chain, and no old database to restore it from. Not proved: which records there were, and in which order. Each journal still has its own checksum.',
};

const linesOf = (rebuilt: Rebuilt): readonly string[] => [
  ...(rebuilt.broken === null ? [] : [`Found: ${findingLine(rebuilt.broken)}`]),
  CHAIN_WORDS[rebuilt.chain](rebuilt),
  ...(rebuilt.database ? [] : ['No database was made: it needs the SQLite module.']),
  ...rebuilt.aside.map((name) => `Kept: ${name}`),
  ...(rebuilt.entries === 0 ? [] : [`Last entry ${rebuilt.last.seq}, ${rebuilt.last.hash}`]),
];

function enterUnrecorded(
  store: RecordsStore,
  folder: string,
  { at, interrupted }: { readonly at: string; readonly interrupted: boolean },
): void {
  const known = new Set(store.entries('repair').map(({ id }) => id));
  const jobs = unrecordedJobs(folder, known).map((id) => ({ id, found: jobOf(folder, id) }));
  const inOrder = jobs.toSorted((a, b) => startOf(a.found).localeCompare(startOf(b.found)));
  for (const { id, found } of inOrder) {
    if (!found.ok) {
      print(`Not entered: ${id}: ${found.why}\n`);
    } else if (!found.ended && !interrupted) {
      const why = 'its journal has no end; --interrupted enters it, while no job is running';
      print(`Not entered: ${id}: ${why}\n`);
    } else {
      const { body, personal } = found;
      const entry = store.append({ at, kind: 'repair', id, body, personal });
      print(`Entered from its journal: ${id}, entry ${entry.seq}\n`);
    }
  }
}

type Job =
  | {
      readonly ok: true;
      readonly ended: boolean;
      readonly body: RepairBody;
      readonly personal: Readonly<Record<string, string>> | null;
    }
  | { readonly ok: false; readonly why: string };

const startOf = (job: Job): string => (job.ok ? job.body.startedAt : '');

function jobOf(folder: string, id: string): Job {
  const at = (name: string): string => join(folder, id, name);
  const journal = loadRepairJournal(at(JOURNAL_FILE));
  if (!journal.ok) return { ok: false, why: journal.problems.map(problemLine).join(' ') };
  const { footer } = journal.value;
  const report = reportDataOf(journal.value, budgetLinesOf(journal.value));
  const endedAt = new Date(Date.parse(report.startedAt) + Math.round(report.lastsS * 1000));
  const personal = readPersonal(jobPersonalPath(join(folder, id)));
  const hasReport = existsSync(at(REPORT_FILE));
  return {
    ok: true,
    ended: footer !== null,
    personal: personal.state === 'there' ? personal.personal.fields : null,
    body: repairBodyOf(report, {
      endedAt: endedAt.toISOString(),
      ...extrasIn(journal.value.header),
      entered: 'later, from its journal',
      journal: { file: JOURNAL_FILE, sha256: fileSha256(at(JOURNAL_FILE)) },
      report: hasReport ? { file: REPORT_FILE, sha256: fileSha256(at(REPORT_FILE)) } : null,
    }),
  };
}
