/**
 * Finds records that still hold personal data from before a given day: of repairs, of care, and of
 * who amended either. The caller decides how old is too old.
 */
import type { EntryKind } from './chain/chain-entry.ts';
import type { RecordsStore } from './records-store.ts';

export interface DueRecord {
  readonly id: string;
  /** Of the repair, or of the first entry that holds data. ISO 8601. */
  readonly startedAt: string;
}

/** Repairs first, oldest last; `before` is an ISO 8601 time. */
export function recordsDue(store: RecordsStore, before: string): readonly DueRecord[] {
  const due = new Map<string, DueRecord>();
  for (const repair of store.each({ to: before.slice(0, 10) })) {
    const { id, technician, vehicle, customer, startedAt } = repair;
    const held = technician !== null || vehicle !== null || customer !== null;
    if (held && startedAt < before) due.set(id, { id, startedAt });
  }
  for (const kind of OTHERS) {
    for (const { id, at, seq, personalSha256 } of store.entries(kind)) {
      if (personalSha256 === null || at >= before || due.has(id)) continue;
      const entries = store.show(id)?.entries ?? [];
      const held = entries.some(({ entry, personal }) => entry.seq === seq && personal !== null);
      if (held) due.set(id, { id, startedAt: at });
    }
  }
  return [...due.values()];
}

const OTHERS: readonly EntryKind[] = ['care', 'amendment'];
