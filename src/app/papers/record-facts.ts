/**
 * What the chain's entries of one job say beyond its journal: their position, later amendments,
 * overridden checks, and whether personal data were removed. For report and certificate.
 */

import { listAt, textAt } from '../../core/fields.ts';
import { type DocumentFacts, NAME_NOT_KEPT } from '../../document/facts.ts';
import type { ChainEntry } from '../../store/chain/chain-entry.ts';
import { fingerprintOf } from '../../store/chain/signature.ts';
import type { ShownEntry } from '../../store/records-store.ts';
import type { OutsideFacts } from './document-facts.ts';

/** Empty where the chain does not know the job. */
export function recordFactsOf(entries: readonly ShownEntry[]): OutsideFacts {
  const repair = entries.findLast(({ entry }) => entry.kind === 'repair');
  if (repair === undefined) return {};
  const { seq, personalSha256 } = repair.entry;
  const removal = entries.find(({ entry }) => entry.kind === 'removal' && entry.seq > seq);
  const removedOn = removal?.entry.at.slice(0, 10) ?? null;
  return {
    chain: chainPlaceOf(repair.entry),
    personalRemovedOn: personalSha256 === null ? null : removedOn,
    amendments: entries.filter(({ entry }) => entry.kind === 'amendment').map(amendmentOf),
    overrides: overridesOf(repair),
  };
}

export const chainPlaceOf = ({ seq, hash, signed }: ChainEntry): DocumentFacts['chain'] => ({
  seq,
  hash,
  unitKey: signed === undefined ? null : fingerprintOf(signed.by),
});

const amendmentOf = ({ entry, personal }: ShownEntry) => ({
  at: entry.at,
  text: textAt(entry.body, 'text') ?? '',
  by: byOf(personal, 'by'),
});

const overridesOf = ({ entry, personal }: ShownEntry) =>
  listAt(entry.body, 'overrides').map((override) => ({
    at: textAt(entry.body, 'startedAt') ?? entry.at,
    what: textAt(override, 'item') ?? '',
    reason: textAt(override, 'reason') ?? '',
    by: byOf(personal, 'overrideBy'),
  }));

const byOf = (personal: ShownEntry['personal'], field: string): string =>
  personal?.[field] ?? NAME_NOT_KEPT;
