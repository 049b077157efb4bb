/**
 * Holds the chain against the last entries that the unit remembers outside the records. A chain
 * that was cut or recomputed lacks them; so does one that was begun again in the place of another.
 */
import type { ChainEntry } from '../chain/chain-entry.ts';
import type { Finding } from '../chain/finding.ts';
import type { RememberedHead } from '../chain/remembered-head.ts';

export interface HeadsCheck {
  readonly see: (entry: ChainEntry) => void;
  readonly finish: () => {
    readonly findings: readonly Finding[];
    readonly remarks: readonly string[];
  };
}

export function createHeadsCheck(heads: readonly RememberedHead[]): HeadsCheck {
  const sought = new Set(heads.map(({ seq }) => seq));
  const found = new Map<number, string>();
  return {
    see: ({ seq, hash }) => {
      if (sought.has(seq)) found.set(seq, hash);
    },
    finish: () => {
      const lost = heads.filter(({ seq, hash }) => found.get(seq) !== hash);
      // Another chain: this unit itself began a new one in its place.
      const isHere = ({ chain }: RememberedHead): boolean => chain === heads.at(-1)?.chain;
      return {
        findings: lost.filter(isHere).map((head) => findingOf(head, found.get(head.seq))),
        remarks: lost.filter((head) => !isHere(head)).map(remarkOf),
      };
    },
  };
}

const findingOf = ({ seq, hash }: RememberedHead, found: string | undefined): Finding => ({
  where: 'chain',
  seq,
  id: null,
  what: 'an entry that this computer wrote',
  expected: hash,
  found: found ?? 'an end before it',
});

const remarkOf = ({ seq, hash }: RememberedHead): string =>
  `this computer wrote another chain into this folder, which ended with entry ${seq}, ${hash}; it is gone`;
