/**
 * Finds repairs in the index: a filter as data, one condition a field, newest first, page by page.
 * Every condition has an index (schema.ts). The command checks what a person typed.
 */
import type { Database } from './sqlite.ts';
import { REPAIR_COLUMNS, type RepairRow } from './store-rows.ts';

/** Result columns that a filter may ask for, and where each is stored. */
export const RESULT_COLUMNS = {
  good: 'grade',
  caution: 'grade',
  bad: 'grade',
  clear: 'outcome',
  'mark-remains': 'outcome',
  completed: 'end_reason',
  'stopped-by-person': 'end_reason',
  alarm: 'end_reason',
  interrupted: 'end_reason',
  fault: 'end_reason',
} as const;
export type ResultWord = keyof typeof RESULT_COLUMNS;

export interface RecordFilter {
  /** Days as YYYY-MM-DD, both inclusive; times are UTC. */
  readonly from?: string | undefined;
  readonly to?: string | undefined;
  /** Personal data: found only while they are kept. Case does not matter. */
  readonly vehicle?: string | undefined;
  readonly technician?: string | undefined;
  readonly customer?: string | undefined;
  readonly damage?: string | undefined;
  readonly result?: ResultWord | undefined;
  /** Name of the unit, or serial number of its board. */
  readonly unit?: string | undefined;
  readonly lot?: string | undefined;
  /** The whole verdict, as the report words it. */
  readonly verdict?: string | undefined;
  /** Id of a claim that is not shown, or worse, not met. */
  readonly notShown?: string | undefined;
  /** Id of a claim that is not met. */
  readonly notMet?: string | undefined;
  readonly id?: string | undefined;
  readonly limit?: number | undefined;
  /** Continues after this row of the previous page. */
  readonly after?: { readonly startedAt: string; readonly seq: number } | undefined;
}

export interface FoundRepair extends RepairRow {
  /** Hash of the entry in the chain. */
  readonly hash: string;
  /** When personal data were removed; null where they were not. */
  readonly removedAt: string | null;
}

interface Condition {
  readonly sql: string;
  readonly values: readonly (string | number)[];
}

/**
 * Selects the repairs first, from indexes alone, and then gathers the columns of these few. The
 * cross joins keep the planner to that order.
 */
export function findRepairs(database: Database, filter: RecordFilter): readonly FoundRepair[] {
  const conditions = conditionsOf(database, filter);
  const where =
    conditions.length === 0 ? '' : `WHERE ${conditions.map(({ sql }) => sql).join(' AND ')}`;
  const sql = `
    SELECT ${REPAIR_COLUMNS}, e.hash AS hash,
      (SELECT x.at FROM entries x WHERE x.id = r.id AND x.kind = 'removal' AND x.seq > r.seq
       ORDER BY x.seq LIMIT 1) AS removedAt
    FROM (SELECT r.seq FROM repairs r ${where} ORDER BY r.started_at DESC, r.seq DESC LIMIT ?) f
      CROSS JOIN repairs r ON r.seq = f.seq CROSS JOIN entries e ON e.seq = f.seq
    ORDER BY r.started_at DESC, r.seq DESC`;
  const values = conditions.flatMap((condition) => condition.values);
  return database.prepare(sql).all(...values, filter.limit ?? -1) as FoundRepair[];
}

/**
 * All matches of a filter, a thousand at a time, so that memory does not grow with their number.
 */
export function* eachRepair(
  find: (filter: RecordFilter) => readonly FoundRepair[],
  filter: RecordFilter,
): Generator<FoundRepair> {
  let left = filter.limit ?? Number.POSITIVE_INFINITY;
  let after = filter.after;
  while (left > 0) {
    const page = find({ ...filter, after, limit: Math.min(left, PAGE) });
    yield* page;
    const last = page.at(-1);
    if (last === undefined || page.length < PAGE) return;
    left -= page.length;
    after = { startedAt: last.startedAt, seq: last.seq };
  }
}

const PAGE = 1000;

function conditionsOf(database: Database, filter: RecordFilter): readonly Condition[] {
  const { from, to, damage, result, unit, lot, id, vehicle, technician, customer, after } = filter;
  const { verdict, notShown, notMet } = filter;
  const is = (column: string, word: string | undefined): Condition | null =>
    when(word, (value) => ({ sql: `r.${column} = ?`, values: [value] }));
  const given: readonly (Condition | null)[] = [
    is('id', id),
    is('vehicle', vehicle),
    is('technician', technician),
    is('customer', customer),
    is('lot', lot),
    is('damage', damage),
    is('verdict', verdict),
    when(notShown, (claim) => ({ sql: `r.seq IN (${OPEN_CLAIM})`, values: [claim] })),
    when(notMet, (claim) => ({
      sql: `r.seq IN (${OPEN_CLAIM} AND c.state = 'not met')`,
      values: [claim],
    })),
    result === undefined ? null : is(RESULT_COLUMNS[result], result),
    unit === undefined ? null : is(unitColumn(database, unit), unit),
    when(from, (day) => ({ sql: 'r.started_at >= ?', values: [day] })),
    // Every time of that day sorts before its twenty-fifth hour.
    when(to, (day) => ({ sql: 'r.started_at < ?', values: [`${day}T25`] })),
    when(after, ({ startedAt, seq }) => ({
      sql: '(r.started_at, r.seq) < (?, ?)',
      values: [startedAt, seq],
    })),
  ];
  return given.filter((condition) => condition !== null);
}

const OPEN_CLAIM = 'SELECT c.seq FROM open_claims c WHERE c.claim = ?';

/** A word that is no unit's name is searched as a serial number. */
function unitColumn(database: Database, word: string): 'unit' | 'serial' {
  const named = database.prepare('SELECT 1 FROM repairs WHERE unit = ? LIMIT 1').get(word);
  return named === undefined ? 'serial' : 'unit';
}

const when = <T>(value: T | undefined, then: (value: T) => Condition): Condition | null =>
  value === undefined ? null : then(value);
