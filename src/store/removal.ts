/**
 * Removes personal data for good. First comes an entry that says so: after a kill in between, the
 * removal is repeated and nothing is lost silently. Then the files, the reports that showed the
 * data, the rows of the database and the remains of deletion are removed. The chain keeps its
 * salted hash, and verify still passes. Copies elsewhere, backups and deleted data that a disk
 * keeps are out of reach.
 */
import { closeSync, existsSync, openSync, readdirSync, readSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { listAt } from '../core/fields.ts';
import type { ChainEntry } from './chain/chain-entry.ts';
import { DATABASE_FILE, isStoreName, personalPath } from './chain/paths.ts';
import type { RecordsStore, ShownRecord } from './records-store.ts';

export interface RemovalOrder {
  readonly folder: string;
  readonly ids: readonly string[];
  readonly at: string;
  readonly reason: string;
  /** A name or a role: itself personal data of the new entry. */
  readonly by: string;
  /** Rewrites the reports of a job's folder without the data; returns what went wrong, or null. */
  readonly rewrite: (jobFolder: string) => Promise<string | null>;
}

export interface Removed {
  readonly id: string;
  readonly state: 'removed' | 'nothing to remove' | 'no such record';
  /** Null where an earlier entry states it already. */
  readonly entry: ChainEntry | null;
  /** The problem with its reports; null where there was none. */
  readonly problem: string | null;
}

export interface Removal {
  readonly records: readonly Removed[];
  /** Old databases that were deleted because they held the data too. */
  readonly dropped: readonly string[];
  /** Files that still hold one of the removed words. */
  readonly traces: readonly string[];
  /** False where another program reads the database and keeps its old pages alive. */
  readonly compacted: boolean;
}

/** Numbers of the entries whose personal data a removal declares removed. */
export const removedSeqs = ({ body }: ChainEntry): readonly number[] =>
  listAt(body, 'of').filter((seq) => typeof seq === 'number');

/** Every word that would be removed, by field. */
export function removableFields(record: ShownRecord): Readonly<Record<string, string>> {
  const fields = record.entries.flatMap(({ entry, personal }) =>
    Object.entries(personal ?? {}).map(([name, value]) => [`${name} of entry ${entry.seq}`, value]),
  );
  return Object.fromEntries(fields);
}

export async function removePersonal(store: RecordsStore, order: RemovalOrder): Promise<Removal> {
  const { folder, ids, by } = order;
  const shown = ids.flatMap((id) => store.show(id) ?? []);
  const words = shown.flatMap((record) => Object.values(removableFields(record)));
  const records: Removed[] = [];
  for (const id of ids) records.push(await removeOne(store, order, id));
  if (records.every(({ state }) => state !== 'removed')) {
    return { records, dropped: [], traces: [], compacted: true };
  }
  const compacted = store.compact();
  const dropped = dropDatabases(folder, store.source() === 'memory' ? '' : '.before-');
  const sought = [...new Set(words)].filter((word) => word !== by);
  const traces = [
    ...tracesIn(folder, filesOf(folder, ids), sought),
    // The database may rightly hold the same word for another record.
    ...tracesIn(
      folder,
      readdirSync(folder).filter(isStoreName),
      sought.filter((word) => !store.keeps(word)),
    ),
  ];
  return { records, dropped, traces, compacted };
}

async function removeOne(store: RecordsStore, order: RemovalOrder, id: string): Promise<Removed> {
  const { folder, at, reason, by } = order;
  const record = store.show(id);
  if (record === null) return { id, state: 'no such record', entry: null, problem: null };
  const entries = record.entries.map(({ entry }) => entry);
  const removed = new Set(entries.filter(({ kind }) => kind === 'removal').flatMap(removedSeqs));
  const held = entries.filter((entry) => entry.personalSha256 !== null);
  // The remover's name stays known: it belongs to the removal's entry and needs its own removal.
  const open = held.filter(({ seq, kind }) => !removed.has(seq) && kind !== 'removal');
  // Completes an earlier removal that was recorded but not finished.
  const left = held.filter(
    (entry) => removed.has(entry.seq) && existsSync(personalPath(folder, entry)),
  );
  if (open.length === 0 && left.length === 0) {
    return { id, state: 'nothing to remove', entry: null, problem: null };
  }
  const body = { what: 'personal data', of: open.map(({ seq }) => seq), reason };
  const entry =
    open.length === 0 ? null : store.append({ at, kind: 'removal', id, body, personal: { by } });
  for (const gone of [...open, ...left]) rmSync(personalPath(folder, gone), { force: true });
  store.forget([...open, ...left].map(({ seq }) => seq));
  const jobFolder = join(folder, id);
  const problem = existsSync(jobFolder) ? await rewriteReports(jobFolder, order.rewrite) : null;
  return { id, state: 'removed', entry, problem };
}

/** Reports that show people; a report's data come from the journal, which names no one. */
const SHOWS_PEOPLE = /^(report|certificate)\.(html|pdf)(\.([0-9a-f]+\.)?part)?$/;

/**
 * Old reports are deleted first: one that cannot be rewritten must not remain with the name in it.
 */
async function rewriteReports(
  jobFolder: string,
  rewrite: RemovalOrder['rewrite'],
): Promise<string | null> {
  const shown = readdirSync(jobFolder).filter((name) => SHOWS_PEOPLE.test(name));
  for (const name of shown) rmSync(join(jobFolder, name));
  return shown.length === 0 ? null : await rewrite(jobFolder);
}

/**
 * Database copies that a rebuild put aside hold personal data too, and nothing irreplaceable. The
 * same holds for a database that cannot be opened: it is rebuilt from the chain.
 */
function dropDatabases(folder: string, ending: string): readonly string[] {
  const old = readdirSync(folder).filter((name) => name.startsWith(`${DATABASE_FILE}${ending}`));
  for (const name of old) rmSync(join(folder, name));
  return old;
}

const filesOf = (folder: string, ids: readonly string[]): readonly string[] =>
  ids
    .filter((id) => existsSync(join(folder, id)))
    .flatMap((id) => readdirSync(join(folder, id)).map((name) => join(id, name)));

/** Searches for the words as a file would hold them. */
const tracesIn = (
  folder: string,
  names: readonly string[],
  words: readonly string[],
): readonly string[] =>
  names
    .filter((name) => statSync(join(folder, name)).isFile())
    .filter((name) => holdsAny(join(folder, name), words));

const BLOCK_BYTES = 1024 * 1024;
/** The overlap finds a word that crosses the border of two blocks. */
const OVERLAP_BYTES = 1024;

function holdsAny(path: string, words: readonly string[]): boolean {
  const sought = words.filter((word) => word.length > 2).map((word) => Buffer.from(word, 'utf8'));
  if (sought.length === 0) return false;
  const file = openSync(path, 'r');
  try {
    const block = Buffer.alloc(BLOCK_BYTES);
    for (let from = 0; ; from += BLOCK_BYTES - OVERLAP_BYTES) {
      const taken = readSync(file, block, 0, BLOCK_BYTES, from);
      const bytes = block.subarray(0, taken);
      if (sought.some((word) => bytes.includes(word))) return true;
      if (taken < BLOCK_BYTES) return false;
    }
  } finally {
    closeSync(file);
  }
}
