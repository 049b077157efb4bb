/**
 * Enters the pages that were just written of a record into the chain, with the photographs that lie
 * beside them, so that a page that is changed, exchanged or lost later is found.
 */
import { existsSync, realpathSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { ChainEntry } from '../../store/chain/chain-entry.ts';
import { type FileHashes, hashesIn, papersBodyOf } from '../../store/chain/papers-body.ts';
import { placeOfAttempt } from '../../store/chain/paths.ts';
import type { RecordsStore } from '../../store/records-store.ts';

export interface PagesWritten {
  readonly records: string;
  readonly id: string;
  /** ISO 8601. */
  readonly at: string;
  /** Paths of the pages. */
  readonly files: readonly string[];
}

/** Null where the record's personal data cannot be read: verify reports those. */
export function enterPapers(
  store: RecordsStore,
  { records, id, at, files }: PagesWritten,
): ChainEntry | null {
  const body = papersBodyOf(join(records, id), files, pagesBefore(store, id));
  return body === null ? null : store.append({ at, kind: 'papers', id, body, personal: null });
}

/** What the chain vouches for so far: nothing where personal data were removed since. */
function pagesBefore(store: RecordsStore, id: string): FileHashes {
  const entries = store.show(id)?.entries.map(({ entry }) => entry) ?? [];
  const last = entries.findLast(({ kind }) => kind === 'papers' || kind === 'removal');
  return last === undefined || last.kind === 'removal' ? {} : hashesIn(last.body, 'files');
}

/** By its real path: a link to a job's folder is that job. */
export function placeInRecords(journal: string) {
  const folder = existsSync(journal) ? dirname(realpathSync.native(journal)) : dirname(journal);
  return placeOfAttempt(folder);
}
