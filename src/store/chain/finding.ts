/** One thing that is not as the chain says, as data: where, what was expected and what was found. */
import type { ChainHead } from './chain-entry.ts';

export interface Finding {
  readonly where: 'chain' | 'journal' | 'personal data' | 'database';
  /** Place in the chain; null where it is about no entry. */
  readonly seq: number | null;
  /** Of the record; null where the line no longer says. */
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
