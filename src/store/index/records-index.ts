/**
 * What the store asks of whatever finds records in the chain for it: the database, or the chain read
 * through. Both give the same answers.
 */
import type { ChainEntry, ChainHead, EntryKind } from '../chain/chain-entry.ts';
import type { FoundRepair, RecordFilter } from './find.ts';

export interface RecordsIndex {
  /** `memory`: no database is used, and all is read from the chain. */
  readonly source: 'database' | 'memory';
  /** The last entry that it knows. */
  readonly head: () => ChainHead;
  /** Takes over what was appended; says where the chain does not follow, or null. */
  readonly catchUp: () => string | null;
  /** Newest first. */
  readonly find: (filter: RecordFilter) => readonly FoundRepair[];
  readonly entries: (kind?: EntryKind) => readonly ChainEntry[];
  readonly ofRecord: (id: string) => readonly ChainEntry[];
  /** Whether some record still keeps this among its personal data. */
  readonly keeps: (word: string) => boolean;
  /** Takes personal data of these entries out; compact must follow. */
  readonly forget: (seqs: readonly number[]) => void;
  /** Rids its files of what deleting left; false where another program still reads them. */
  readonly compact: () => boolean;
  readonly close: () => void;
}
