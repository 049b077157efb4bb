/**
 * Turns one chain entry into rows of the index: the entry itself, a repair by column, personal data
 * by field. Bodies are read leniently, because an entry in the chain must be findable even where
 * another version wrote it. find.ts decides how rows are found.
 */
import { isTrueAt, listAt, numberAt, textAt } from '../../core/fields.ts';
import { type ChainEntry, encodeEntry, parseEntry } from '../chain/chain-entry.ts';
import { type ClaimColumns, claimColumnsOf, openClaimsOf } from './claim-columns.ts';
import type { Database } from './sqlite.ts';
import { inTransaction } from './statements.ts';

/** A repair by column, as stored in SQLite. */
export interface RepairRow extends ClaimColumns {
  readonly seq: number;
  readonly id: string;
  /** The job of which this is an attempt, and which one. */
  readonly job: string;
  readonly attempt: number;
  readonly startedAt: string;
  readonly endedAt: string | null;
  readonly simulated: 0 | 1;
  readonly unit: string | null;
  readonly serial: string | null;
  readonly profile: string | null;
  readonly damage: string | null;
  readonly diameterM: number | null;
  readonly longestLegM: number | null;
  readonly depthM: number | null;
  /** Separated by "; ". */
  readonly ruleSets: string;
  readonly assessment: string | null;
  readonly endReason: string;
  readonly outcome: string | null;
  readonly verdict: string;
  readonly grade: string;
  readonly doseVerdict: string | null;
  readonly doseJPerM2: number | null;
  readonly targetJPerM2: number | null;
  readonly lampOnS: number | null;
  readonly resin: string | null;
  readonly lot: string | null;
  readonly alarms: number;
  readonly overrides: number;
  readonly journalSha256: string | null;
  /** Personal data, while they are kept. */
  readonly technician: string | null;
  readonly vehicle: string | null;
  readonly customer: string | null;
}

type People = Pick<RepairRow, 'technician' | 'vehicle' | 'customer'>;

/** 'doseJPerM2' to 'dose_j_per_m2', as the tables spell it. */
const snake = (name: string): string =>
  name.replaceAll(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);

export function repairRowOf(
  { seq, id, at, body }: ChainEntry,
  { technician = null, vehicle = null, customer = null }: Readonly<Partial<People>>,
): RepairRow {
  const words = (...path: readonly string[]) => textAt(body, ...path);
  const figure = (...path: readonly string[]) => numberAt(body, ...path);
  return {
    seq,
    id,
    job: words('attempt', 'job') ?? id,
    attempt: figure('attempt', 'number') ?? 1,
    startedAt: words('startedAt') ?? at,
    endedAt: words('endedAt'),
    simulated: isTrueAt(body, 'simulated') ? 1 : 0,
    unit: words('unit', 'name'),
    serial: words('unit', 'serial'),
    profile: words('profile'),
    damage: words('damage', 'type'),
    diameterM: figure('damage', 'diameterM'),
    longestLegM: figure('damage', 'longestLegM'),
    depthM: figure('damage', 'depthM'),
    ruleSets: listAt(body, 'ruleSets').join('; '),
    assessment: words('assessment'),
    endReason: words('result', 'endReason') ?? 'unknown',
    outcome: words('result', 'outcome'),
    verdict: words('result', 'verdict') ?? 'unknown',
    grade: words('result', 'grade') ?? 'unknown',
    doseVerdict: words('dose', 'verdict'),
    doseJPerM2: figure('dose', 'doseJPerM2'),
    targetJPerM2: figure('dose', 'targetJPerM2'),
    lampOnS: figure('dose', 'lampOnS'),
    resin: words('resin', 'name'),
    lot: words('resin', 'lot'),
    alarms: figure('alarms') ?? 0,
    overrides: listAt(body, 'overrides').length,
    journalSha256: words('journal', 'sha256'),
    ...claimColumnsOf(body),
    technician,
    vehicle,
    customer,
  };
}

const REPAIR_FIELDS = Object.keys(
  repairRowOf(
    {
      seq: 0,
      id: '',
      at: '',
      kind: 'repair',
      body: null,
      personalSha256: null,
      previous: '',
      hash: '',
    },
    {},
  ),
) as readonly (keyof RepairRow)[];

/** The columns of `repairs` under their names in `RepairRow`. */
export const REPAIR_COLUMNS = REPAIR_FIELDS.map((field) => `r.${snake(field)} AS ${field}`).join(
  ', ',
);

const INSERT_REPAIR = `INSERT INTO repairs (${REPAIR_FIELDS.map(snake).join(', ')})
  VALUES (${REPAIR_FIELDS.map((field) => `@${field}`).join(', ')})`;

export interface RowWriter {
  /**
   * `endsAt` is the offset at which the entry's line ends in the chain; `fields` are its personal
   * data.
   */
  readonly insert: (
    entry: ChainEntry,
    endsAt: number,
    fields: Readonly<Record<string, string>> | null,
  ) => void;
}

/** Prepares the statements once; the caller handles transactions. */
export function createRowWriter(database: Database): RowWriter {
  const entries = database.prepare(
    'INSERT INTO entries (seq, at, kind, id, hash, line, ends_at) VALUES (?, ?, ?, ?, ?, ?, ?)',
  );
  const repairs = createRepairWriter(database);
  const personal = database.prepare('INSERT INTO personal (seq, name, value) VALUES (?, ?, ?)');
  return {
    insert: (entry, endsAt, fields) => {
      const { seq, at, kind, id, hash } = entry;
      entries.run(seq, at, kind, id, hash, encodeEntry(entry), endsAt);
      if (kind === 'repair') repairs(repairRowOf(entry, fields ?? {}));
      for (const [name, value] of Object.entries(fields ?? {})) personal.run(seq, name, value);
    },
  };
}

function createRepairWriter(database: Database): (row: RepairRow) => void {
  const repairs = database.prepare(INSERT_REPAIR);
  const claims = database.prepare('INSERT INTO open_claims (claim, state, seq) VALUES (?, ?, ?)');
  return (row) => {
    repairs.run(row);
    for (const { claim, state } of openClaimsOf(row)) claims.run(claim, state, row.seq);
  };
}

/** Makes the columns of every repair again from its entry, for a database that lacks some of them. */
export function deriveRepairs(database: Database): void {
  const personal = database.prepare('SELECT name, value FROM personal WHERE seq = ?');
  const write = createRepairWriter(database);
  database.exec('DELETE FROM open_claims; DELETE FROM repairs;');
  for (const entry of repairEntries(database)) {
    const fields = personal.all(entry.seq) as { name: string; value: string }[];
    write(repairRowOf(entry, Object.fromEntries(fields.map(({ name, value }) => [name, value]))));
  }
}

/** Some at a time: nothing can be written while a query is open, and all lines may be too many. */
function* repairEntries(database: Database): Generator<ChainEntry> {
  const page = database.prepare(
    "SELECT seq, line FROM entries WHERE kind = 'repair' AND seq > ? ORDER BY seq LIMIT 500",
  );
  for (let last = 0; ; ) {
    const rows = page.all(last) as { seq: number; line: string }[];
    for (const { line } of rows) {
      const entry = parseEntry(line);
      if (entry !== null) yield entry;
    }
    const end = rows.at(-1);
    if (end === undefined) return;
    last = end.seq;
  }
}

/** Deletes the personal data of these entries from the tables. */
export function deletePersonal(database: Database, seqs: readonly number[]): void {
  const rows = database.prepare('DELETE FROM personal WHERE seq = ?');
  const columns = database.prepare(
    'UPDATE repairs SET technician = NULL, vehicle = NULL, customer = NULL WHERE seq = ?',
  );
  inTransaction(database, () => {
    for (const seq of seqs) {
      rows.run(seq);
      columns.run(seq);
    }
  });
}
