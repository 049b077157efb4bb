/** Which repairs still hold personal data that are older than a day; how old is too old is asked. */
import type { FoundRepair } from './index/find.ts';
import type { RecordsStore } from './records-store.ts';

/** Oldest last; `before` is a time as ISO 8601. */
export function recordsDue(store: RecordsStore, before: string): readonly FoundRepair[] {
  const due: FoundRepair[] = [];
  for (const repair of store.each({ to: before.slice(0, 10) })) {
    const { technician, vehicle, customer, startedAt } = repair;
    const held = technician !== null || vehicle !== null || customer !== null;
    if (held && startedAt < before) due.push(repair);
  }
  return due;
}
