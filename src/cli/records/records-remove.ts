/**
 * `meniscus records remove-personal` and `retain`: delete personal data for good, of one record or
 * of all records older than a number of days. Places that the program cannot reach are named.
 */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { type Command, InvalidArgumentError } from 'commander';
import { chainCheckOf, chainFactsOf } from '../../app/papers/chain-facts.ts';
import { enterPapers, type PagesWritten, placeInRecords } from '../../app/papers/enter-papers.ts';
import { partsOfNamesIn } from '../../app/prepare/personal.ts';
import { problemLine } from '../../core/settings.ts';
import { databasePath, JOURNAL_FILE } from '../../store/chain/paths.ts';
import { indexMissing } from '../../store/index/sqlite.ts';
import type { RecordsStore } from '../../store/records-store.ts';
import {
  type Removal,
  type Removed,
  removableFields,
  removePersonal,
} from '../../store/removal.ts';
import { recordsDue } from '../../store/retention.ts';
import { attemptsIn } from '../../store/verify/unrecorded.ts';
import { chainLinks } from '../../store/verify/verify-chain.ts';
import { EXIT } from '../terminal/exit-codes.ts';
import {
  complain,
  noSuchRecord,
  type RecordsOptions,
  withRecords,
} from '../terminal/open-records.ts';
import { print } from '../terminal/print.ts';
import { parseText } from '../terminal/records-text.ts';

interface RemoveOptions extends RecordsOptions {
  readonly reason: string;
  readonly by: string;
}

interface RetainOptions extends RecordsOptions {
  readonly olderThan: number;
  readonly by?: string;
  readonly yes: boolean;
}

const DAY_MS = 86_400_000;
const MOST_DAYS = 36_500;

function parseDays(words: string): number {
  const days = Number(words);
  if (/^\d+$/.test(words) && days <= MOST_DAYS) return days;
  throw new InvalidArgumentError(`accepted: a whole number of days from 0 to ${MOST_DAYS}.`);
}

export function addRemovePersonal(records: Command): void {
  records
    .command('remove-personal')
    .description('delete technician, vehicle and customer of a record for good')
    .argument('<id>', 'as `meniscus records list` shows it')
    .requiredOption('--reason <text>', 'reason; it stays in the record', parseText(200))
    .requiredOption('--by <name>', 'a name or a role', parseText(40))
    .addHelpText(
      'after',
      '\nExample: meniscus records remove-personal demo-0001 --reason "asked by the customer" --by office\n',
    )
    .action(async (id: string, _, command: Command) => {
      process.exitCode = await remove(id, command.optsWithGlobals<RemoveOptions>());
    });
}

export function addRetain(records: Command): void {
  records
    .command('retain')
    .description(
      'list repairs with personal data older than a number of days; with --yes delete the data',
    )
    .requiredOption('--older-than <days>', 'days since the repair began', parseDays)
    .option('--yes', 'delete them for good', false)
    .option('--by <name>', 'with --yes: a name or a role', parseText(40))
    .addHelpText('after', '\nExample: meniscus records retain --older-than 730 --yes --by office\n')
    .action(async (_, command: Command) => {
      process.exitCode = await retain(command.optsWithGlobals<RetainOptions>());
    });
}

function remove(id: string, { records, reason, by }: RemoveOptions): Promise<number> {
  return withRecords(records, 'write', (store) => {
    const record = store.show(id);
    if (record === null) return noSuchRecord(records, id);
    const fields = removableFields(record);
    for (const [path, text] of [
      ['--reason', reason],
      ['--by', by],
    ] as const) {
      if (partsOfNamesIn(text, fields).length === 0) continue;
      const accepted = 'a text without the data to be deleted, such as a role';
      complain([problemLine({ file: id, path, value: JSON.stringify(text), accepted })]);
      return EXIT.badInput;
    }
    // A job's attempts name the same people.
    const attempts = attemptsIn(records, id);
    return removeAll(store, records, attempts.length > 0 ? attempts : [id], reason, by);
  });
}

function retain({ records, olderThan, yes, by }: RetainOptions): Promise<number> {
  const before = new Date(Date.now() - olderThan * DAY_MS).toISOString();
  return withRecords(records, yes ? 'write' : 'read', (store) => {
    const due = recordsDue(store, before);
    const lines = due.map(({ id, startedAt }) => `${startedAt.slice(0, 10)}  ${id}`);
    if (due.length === 0) lines.push(`No personal data are older than ${olderThan} days.`);
    else if (!yes) lines.push(`${due.length} due; --yes deletes their personal data for good.`);
    print(`${lines.join('\n')}\n`);
    if (!yes || due.length === 0) return EXIT.completed;
    if (by === undefined) {
      complain(['--by is missing; accepted: a name or a role, which --yes needs']);
      return EXIT.badInput;
    }
    const ids = due.map(({ id }) => id);
    return removeAll(store, records, ids, `older than ${olderThan} days`, by);
  });
}

async function removeAll(
  store: RecordsStore,
  folder: string,
  ids: readonly string[],
  reason: string,
  by: string,
): Promise<number> {
  const inDatabase = databaseProblem(store, folder);
  if (inDatabase !== null) {
    complain([inDatabase]);
    return EXIT.fault;
  }
  const at = new Date().toISOString();
  const removal = await removePersonal(store, {
    folder,
    ids,
    at,
    reason,
    by,
    rewrite: (jobFolder) => rewriteReport(store, { records: folder, at }, jobFolder),
  });
  print(`${linesOf(removal).join('\n')}\n`);
  const whole =
    removal.compacted &&
    removal.traces.length === 0 &&
    removal.records.every(({ problem }) => problem === null);
  return whole ? EXIT.completed : EXIT.fault;
}

/**
 * Why a database that cannot be opened must not be deleted with the data in it; null where there is
 * none, or where the chain can rebuild it.
 */
function databaseProblem(store: RecordsStore, folder: string): string | null {
  if (store.source() === 'database' || !existsSync(databasePath(folder))) return null;
  const may = 'meniscus.db may hold the data and cannot be used';
  if (indexMissing() === null) return `${may}; first: meniscus records rebuild`;
  const links = [...chainLinks(folder)];
  return links.some(({ finding, torn }) => finding !== null && !torn)
    ? `${may}, and the damaged chain needs it; run: meniscus records verify`
    : null;
}

async function rewriteReport(
  store: RecordsStore,
  { records, at }: Pick<PagesWritten, 'records' | 'at'>,
  jobFolder: string,
): Promise<string | null> {
  const journal = join(jobFolder, JOURNAL_FILE);
  if (!existsSync(journal)) return `${jobFolder}: no journal, so no report could be rewritten`;
  const { writeReport } = await import('../../app/papers/write-report.ts');
  const check = chainCheckOf(journal);
  if (check.state === 'differs') {
    return `its pages were deleted and not rewritten, because ${check.words}`;
  }
  const { ok, lines, files } = await writeReport(journal, chainFactsOf(journal, check));
  if (!ok) return lines.join(' ');
  const { id } = placeInRecords(journal);
  enterPapers(store, { records, id, at, files });
  return null;
}

const DONE: Readonly<Record<Removed['state'], string>> = {
  removed: 'personal data removed',
  'nothing to remove': 'holds no personal data',
  'no such record': 'no such record',
};

const linesOf = ({ records, dropped, traces, compacted }: Removal): readonly string[] => [
  ...records.map(({ id, state, entry, problem }) => {
    const place = entry === null ? '' : `, entry ${entry.seq}, ${entry.hash}`;
    return `${id}: ${DONE[state]}${place}${problem === null ? '' : `; ${problem}`}`;
  }),
  ...dropped.map((name) => `${name} held the data too and was deleted`),
  ...traces.map((name) => `STILL in ${name}: inspect it and decide`),
  ...(compacted
    ? []
    : ['meniscus.db is being read by another program: close it and run this again']),
  'Copies elsewhere, backups and exported tables are not reached.',
];
