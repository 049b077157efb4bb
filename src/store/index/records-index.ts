/**
 * What the store needs to find records: the database, or the chain read in full. Both give the same
 * answers.
 */
import type { ChainEntry, ChainHead, EntryKind } from '../chain/chain-entry.ts';
import type { FoundRepair, RecordFilter } from './find.ts';

export interface RecordsIndex {
  /** `memory`: no database is used, and everything is read from the chain. */
  readonly source: 'database' | 'memory';
  /** The last entry that the index knows. */
  readonly head: () => ChainHead;
  /** Takes over what was appended; returns where the chain does not follow, or null. */
  readonly catchUp: () => string | null;
  /** Newest first. */
  readonly find: (filter: RecordFilter) => readonly FoundRepair[];
  readonly entries: (kind?: EntryKind) => readonly ChainEntry[];
  readonly ofRecord: (id: string) => readonly ChainEntry[];
  /** Whether another record still has this word among its personal data. */
  readonly keeps: (word: string) => boolean;
  /** Deletes the personal data of these entries; call compact afterwards. */
  readonly forget: (seqs: readonly number[]) => void;
  /** Clears deleted data from its files; returns false where another program still reads them. */
  readonly compact: () => boolean;
  readonly close: () => void;
}
