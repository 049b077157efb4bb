/**
 * What later entries say about earlier ones, known before the walk along the chain: which personal
 * data were removed, and which entry is the last about the pages of a record.
 */
import { type ChainEntry, parseEntry } from '../chain/chain-entry.ts';
import { chainLines } from '../chain/chain-file.ts';
import { removedSeqs } from '../removal.ts';

export interface LaterEntries {
  readonly removals: readonly { readonly id: string; readonly at: string }[];
  /** When the personal data of an entry were declared removed, by its number. */
  readonly removedAt: ReadonlyMap<number, string>;
  /**
   * Number of the last entry about a record's pages; 0 where personal data were removed after it,
   * and the pages with them.
   */
  readonly papers: ReadonlyMap<string, number>;
}

const KINDS = ['"kind":"removal"', '"kind":"papers"'];

export function laterEntriesIn(folder: string): LaterEntries {
  const removals: { readonly id: string; readonly at: string }[] = [];
  const removedAt = new Map<number, string>();
  const papers = new Map<string, number>();
  const take: Partial<Record<ChainEntry['kind'], (entry: ChainEntry) => void>> = {
    papers: ({ id, seq }) => papers.set(id, seq),
    removal: (entry) => {
      const { id, at } = entry;
      removals.push({ id, at });
      papers.set(id, 0);
      for (const seq of removedSeqs(entry)) if (!removedAt.has(seq)) removedAt.set(seq, at);
    },
  };
  for (const { bytes } of chainLines(folder)) {
    if (!KINDS.some((kind) => bytes.includes(kind))) continue;
    const entry = parseEntry(bytes.toString('utf8'));
    if (entry !== null) take[entry.kind]?.(entry);
  }
  return { removals, removedAt, papers };
}
