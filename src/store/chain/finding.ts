/**
 * A difference between the chain and what was found, as data: where, what was expected and what was
 * found.
 */
import type { ChainHead } from './chain-entry.ts';

export interface Finding {
  readonly where: 'chain' | 'journal' | 'papers' | 'personal data' | 'database';
  /** Number of the entry; null where the finding concerns no entry. */
  readonly seq: number | null;
  /** Name of the record; null where the line no longer states it. */
  readonly id: string | null;
  readonly what: string;
  readonly expected: string;
  readonly found: string;
}

export const findingLine = ({ where, seq, id, what, expected, found }: Finding): string => {
  const entry = seq === null ? '' : ` at entry ${seq}${id === null ? '' : ` (${id})`}`;
  return `${where}${entry}: ${what}: expected ${expected}, found ${found}`;
};

/** Only another witness shows that a chain was cut at its end; here it is the database. */
export const endFinding = (known: ChainHead, last: number): Finding => ({
  where: 'chain',
  seq: last + 1,
  id: null,
  what: 'end of the chain',
  expected: `entry ${known.seq} with hash ${known.hash}, which meniscus.db knows`,
  found: `an end after entry ${last}`,
});
