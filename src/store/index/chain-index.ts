/**
 * Finds records without a database: reads the whole chain and caches the result until something is
 * appended. It is slower than the database and gives the same answers. Every line that is an entry
 * counts, even after one that is not; verify.ts reports those.
 */
import { CHAIN_START, type ChainEntry, parseEntry } from '../chain/chain-entry.ts';
import { chainLines, chainTail } from '../chain/chain-file.ts';
import { personalFieldsOf } from '../chain/personal-file.ts';
import { openClaimsOf } from './claim-columns.ts';
import { type FoundRepair, RESULT_COLUMNS, type RecordFilter } from './find.ts';
import type { RecordsIndex } from './records-index.ts';
import { repairRowOf } from './store-rows.ts';

export function createChainIndex(folder: string): RecordsIndex {
  let entries: readonly ChainEntry[] | null = null;
  let repairs: readonly FoundRepair[] | null = null;
  const all = (): readonly ChainEntry[] => {
    entries ??= [...entriesIn(folder)];
    return entries;
  };
  const found = (): readonly FoundRepair[] => {
    repairs ??= repairsOf(folder, all());
    return repairs;
  };
  const readAgain = (): void => {
    entries = null;
    repairs = null;
  };
  return {
    source: 'memory',
    head: () => {
      const { seq, hash } = chainTail(folder).head ?? all().at(-1) ?? CHAIN_START;
      return { seq, hash };
    },
    catchUp: () => {
      readAgain();
      return null;
    },
    find: (filter) => filtered(found(), filter),
    entries: (kind) => all().filter((entry) => kind === undefined || entry.kind === kind),
    ofRecord: (id) => all().filter((entry) => entry.id === id),
    keeps: (word) =>
      all().some((entry) => Object.values(personalFieldsOf(folder, entry) ?? {}).includes(word)),
    forget: readAgain,
    compact: () => true,
    close: () => undefined,
  };
}

export function* entriesIn(folder: string): Generator<ChainEntry> {
  let last = 0;
  for (const { bytes, whole } of chainLines(folder)) {
    const entry = whole ? parseEntry(bytes.toString('utf8')) : null;
    if (entry === null || entry.seq <= last) continue;
    last = entry.seq;
    yield entry;
  }
}

function repairsOf(folder: string, entries: readonly ChainEntry[]): readonly FoundRepair[] {
  const removals = new Map<string, ChainEntry[]>();
  for (const entry of entries) {
    if (entry.kind !== 'removal') continue;
    removals.set(entry.id, [...(removals.get(entry.id) ?? []), entry]);
  }
  return entries
    .filter(({ kind }) => kind === 'repair')
    .map((entry) => ({
      ...repairRowOf(entry, personalFieldsOf(folder, entry) ?? {}),
      hash: entry.hash,
      removedAt: removals.get(entry.id)?.find(({ seq }) => seq > entry.seq)?.at ?? null,
    }))
    .toSorted(newestFirst);
}

type Place = Pick<FoundRepair, 'startedAt' | 'seq'>;

const newestFirst = (a: Place, b: Place): number =>
  a.startedAt === b.startedAt ? b.seq - a.seq : a.startedAt < b.startedAt ? 1 : -1;

/** The same conditions as in find.ts. */
function filtered(repairs: readonly FoundRepair[], filter: RecordFilter): readonly FoundRepair[] {
  const { from, to, vehicle, technician, customer, damage, result, unit, lot, id, after } = filter;
  const { verdict, notShown, notMet } = filter;
  const named = repairs.some((repair) => repair.unit === unit);
  const is = (word: string | undefined, value: string | null): boolean =>
    word === undefined || value === word;
  const alike = (word: string | undefined, value: string | null): boolean =>
    word === undefined || (value !== null && folded(value) === folded(word));
  return repairs
    .filter(
      (repair) =>
        is(id, repair.id) &&
        is(lot, repair.lot) &&
        is(damage, repair.damage) &&
        is(verdict, repair.verdict) &&
        isOpen(notShown, repair) &&
        isOpen(notMet, repair, 'not met') &&
        is(unit, named ? repair.unit : repair.serial) &&
        alike(vehicle, repair.vehicle) &&
        alike(technician, repair.technician) &&
        alike(customer, repair.customer) &&
        (result === undefined || repair[RESULT_FIELDS[RESULT_COLUMNS[result]]] === result) &&
        (from === undefined || repair.startedAt >= from) &&
        (to === undefined || repair.startedAt < `${to}T25`) &&
        (after === undefined || newestFirst(after, repair) < 0),
    )
    .slice(0, filter.limit);
}

/** Whether the claim is not shown or not met, or of this one state. */
const isOpen = (id: string | undefined, repair: FoundRepair, only?: 'not met'): boolean =>
  id === undefined ||
  openClaimsOf(repair).some(
    ({ claim, state }) => claim === id && (only === undefined || state === only),
  );

const RESULT_FIELDS = { grade: 'grade', outcome: 'outcome', end_reason: 'endReason' } as const;

/** Folds case as SQLite does: ASCII letters only. */
const folded = (words: string): string =>
  words.replaceAll(/[A-Z]/g, (letter) => letter.toLowerCase());
