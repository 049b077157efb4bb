/**
 * Finds repairs that still hold personal data from before a given day; the caller decides how old
 * is too old.
 */
import type { FoundRepair } from './index/find.ts';
import type { RecordsStore } from './records-store.ts';

/** Oldest last; `before` is an ISO 8601 time. */
export function recordsDue(store: RecordsStore, before: string): readonly FoundRepair[] {
  const due: FoundRepair[] = [];
  for (const repair of store.each({ to: before.slice(0, 10) })) {
    const { technician, vehicle, customer, startedAt } = repair;
    const held = technician !== null || vehicle !== null || customer !== null;
    if (held && startedAt < before) due.push(repair);
  }
  return due;
}
