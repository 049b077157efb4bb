/**
 * What somebody would do to signed records afterwards, and the records put back when it was looked
 * at: a unit remembers them by their place.
 */
import { cpSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll } from 'vitest';
import { type ChainEntry, nextEntry } from '../../../src/store/chain/chain-entry.ts';
import type { Signer } from '../../../src/store/chain/signature.ts';
import type { Unit } from '../../../src/store/chain/unit-key.ts';
import { openSqlite } from '../../../src/store/index/sqlite.ts';
import { folderForFile, recordsFolder } from '../records-folder.ts';
import { entriesOf, fillSigned, linkedAgain, unitIn, writeEntries } from './signed-records.ts';

export interface Forging {
  readonly whole: string;
  readonly unit: () => Unit;
  /** A unit with another key. */
  readonly stranger: () => Unit;
  readonly whileChanged: <T>(change: (folder: string) => void, look: () => T) => T;
}

/** One folder of signed records for all tests of a file. */
export function createForging(): Forging {
  const whole = folderForFile();
  const units = folderForFile();
  const unit = () => unitIn(join(units, 'own'));
  beforeAll(() => fillSigned(whole, unit()));
  return {
    whole,
    unit,
    stranger: () => unitIn(join(units, 'other')),
    whileChanged: (change, look) => {
      const aside = recordsFolder();
      for (const from of [whole, units]) cpSync(from, join(aside, from), { recursive: true });
      try {
        change(whole);
        return look();
      } finally {
        for (const from of [whole, units]) {
          rmSync(from, { recursive: true, force: true });
          cpSync(join(aside, from), from, { recursive: true });
        }
      }
    },
  };
}

export const edit = (folder: string, file: string, from: string, to: string): void => {
  const text = readFileSync(join(folder, file), 'utf8');
  if (!text.includes(from)) throw new Error(`${file} does not hold ${from}`);
  writeFileSync(join(folder, file), text.replace(from, to));
};
export const drop = (folder: string, ...files: readonly string[]): void => {
  for (const file of files) rmSync(join(folder, file), { recursive: true });
};
export const swap = (folder: string, one: string, other: string): void => {
  renameSync(join(folder, one), join(folder, 'between'));
  renameSync(join(folder, other), join(folder, one));
  renameSync(join(folder, 'between'), join(folder, other));
};
export const inDatabase = (folder: string, sql: string): void => {
  const database = openSqlite(join(folder, 'meniscus.db'));
  database.exec(sql);
  database.close();
};
/** The second job's result, as somebody would like it. */
export const better = (entries: readonly ChainEntry[]): readonly ChainEntry[] =>
  entries.map((entry) => (entry.seq === 5 ? { ...entry, at: '2026-03-01T08:00:00.000Z' } : entry));
export const rechained = (
  folder: string,
  change: (entries: readonly ChainEntry[]) => readonly ChainEntry[],
  signer: Signer | null | 'as before',
): void => writeEntries(folder, linkedAgain(change(entriesOf(folder)), signer));
export const appended = (folder: string, signer: Signer | null, kind: ChainEntry['kind']): void => {
  const head = entriesOf(folder).at(-1);
  if (head === undefined) throw new Error('no entries');
  const draft = { at: head.at, id: 'demo-2', body: {}, personalSha256: null };
  writeEntries(folder, [...entriesOf(folder), nextEntry(head, { ...draft, kind }, signer)]);
};
