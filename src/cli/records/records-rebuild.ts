/**
 * `meniscus records rebuild`: makes a new database, restores a chain where that can be proved,
 * enters jobs without an entry from their journals, and reports what was proved and what was not.
 */
import { existsSync } from 'node:fs';
import type { Command } from 'commander';
import { problemLine } from '../../core/settings.ts';
import { findingLine } from '../../store/chain/finding.ts';
import type { RecordsStore } from '../../store/records-store.ts';
import type { Rebuilt } from '../../store/verify/rebuild.ts';
import { unrecordedJobs } from '../../store/verify/unrecorded.ts';
import { countWords } from '../terminal/count-words.ts';
import { EXIT } from '../terminal/exit-codes.ts';
import { complain, type RecordsOptions, withRecords } from '../terminal/open-records.ts';
import { print } from '../terminal/print.ts';
import { tellWorking } from '../terminal/progress.ts';
import { entryFromJournal, startOf } from './entry-from-journal.ts';

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
  const jobs = unrecordedJobs(folder, known).map((id) => ({
    id,
    found: entryFromJournal(folder, id),
  }));
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
