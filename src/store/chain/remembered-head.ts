/**
 * What a unit remembers of each chain that it wrote, outside the records: the last entry. A chain
 * that was cut at its end, recomputed or deleted is thereby found on the computer that wrote it. It
 * is a witness and no record: where it is lost, the records are as good as before.
 */
import { createHash, randomBytes } from 'node:crypto';
import { existsSync, readFileSync, realpathSync, renameSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { makePrivateFolder, writePrivate } from '../../journal/private-file.ts';
import type { ChainEntry, ChainHead } from './chain-entry.ts';

const place = z.object({
  /** Another one for each chain that this unit began in the folder; random. */
  chain: z.string(),
  seq: z.number().int(),
  hash: z.string().regex(/^[0-9a-f]{64}$/),
});
const schema = z.object({ folder: z.string(), heads: z.array(place) });

export type RememberedHead = z.infer<typeof place>;

/** Oldest first; none where this unit remembers nothing of this folder. */
export function rememberedHeads(unitFolder: string, folder: string): readonly RememberedHead[] {
  try {
    return schema.parse(JSON.parse(readFileSync(pathOf(unitFolder, folder), 'utf8'))).heads;
  } catch {
    return [];
  }
}

/**
 * Call under the chain's lock, after the entry is in the chain. `before` is the head on which it
 * was written. Where that is not the remembered one, both are remembered.
 */
export function rememberHead(
  unitFolder: string,
  folder: string,
  before: ChainHead,
  { seq, hash }: ChainEntry,
): void {
  const heads = rememberedHeads(unitFolder, folder);
  const last = heads.at(-1);
  const goesOn = last !== undefined && last.seq === before.seq && last.hash === before.hash;
  const isNew = last === undefined || before.seq === 0;
  const chain = isNew ? randomBytes(8).toString('hex') : last.chain;
  const kept = goesOn ? heads.slice(0, -1) : heads;
  const next = { folder, heads: [...kept, { chain, seq, hash }].slice(-MOST_HEADS) };
  const path = pathOf(unitFolder, folder);
  makePrivateFolder(join(unitFolder, HEADS_FOLDER));
  const fresh = `${path}.${randomBytes(6).toString('hex')}.part`;
  writePrivate(fresh, `${JSON.stringify(next)}\n`, 'wx');
  renameSync(fresh, path);
}

const HEADS_FOLDER = 'heads';
const MOST_HEADS = 20;

/** By the folder's real path: a link to it is that folder. */
function pathOf(unitFolder: string, folder: string): string {
  const real = existsSync(folder) ? realpathSync.native(folder) : folder;
  const name = createHash('sha256').update(real).digest('hex').slice(0, 24);
  return join(unitFolder, HEADS_FOLDER, `${name}.json`);
}
