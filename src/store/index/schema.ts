/**
 * The tables of the index and their migrations: numbered steps, each run once, together or not at
 * all, counted in the database's own `user_version`. A released step is never changed; a later step
 * corrects its errors. Everything can be rebuilt from the chain. The line of each entry is stored
 * too, so that a lost chain can be restored.
 */
import type { Database } from './sqlite.ts';
import { inTransaction, pragmaOf } from './statements.ts';
import { deriveRepairs } from './store-rows.ts';

interface Migration {
  readonly version: number;
  readonly what: string;
  readonly sql: string;
  /** Repairs gain columns: their rows are made again from the entries, which hold everything. */
  readonly derives?: true;
}

const FILTERED = [
  'id',
  'damage',
  'end_reason',
  'outcome',
  'grade',
  'unit',
  'serial',
  'lot',
  'technician',
  'vehicle',
  'customer',
];

export const MIGRATIONS: readonly Migration[] = [
  {
    version: 1,
    what: 'entries as they stand in the chain, repairs by column, personal data apart',
    sql: `
      CREATE TABLE entries (
        seq INTEGER PRIMARY KEY,
        at TEXT NOT NULL,
        kind TEXT NOT NULL,
        id TEXT NOT NULL,
        hash TEXT NOT NULL,
        line TEXT NOT NULL,
        ends_at INTEGER NOT NULL
      ) STRICT;
      CREATE TABLE repairs (
        seq INTEGER PRIMARY KEY,
        id TEXT NOT NULL,
        started_at TEXT NOT NULL,
        ended_at TEXT,
        simulated INTEGER NOT NULL,
        unit TEXT,
        serial TEXT,
        profile TEXT,
        damage TEXT,
        diameter_m REAL,
        longest_leg_m REAL,
        depth_m REAL,
        rule_sets TEXT NOT NULL,
        assessment TEXT,
        end_reason TEXT NOT NULL,
        outcome TEXT,
        verdict TEXT NOT NULL,
        grade TEXT NOT NULL,
        dose_verdict TEXT,
        dose_j_per_m2 REAL,
        target_j_per_m2 REAL,
        lamp_on_s REAL,
        resin TEXT,
        lot TEXT,
        alarms INTEGER NOT NULL,
        overrides INTEGER NOT NULL,
        journal_sha256 TEXT,
        technician TEXT COLLATE NOCASE,
        vehicle TEXT COLLATE NOCASE,
        customer TEXT COLLATE NOCASE
      ) STRICT;
      CREATE TABLE personal (
        seq INTEGER NOT NULL,
        name TEXT NOT NULL,
        value TEXT NOT NULL,
        PRIMARY KEY (seq, name)
      ) STRICT, WITHOUT ROWID;
      CREATE INDEX entries_by_id ON entries (id, seq);
      CREATE INDEX entries_by_kind ON entries (kind, seq);
    `,
  },
  {
    version: 2,
    what: 'an index for every filter, newest first',
    sql: [
      'CREATE INDEX repairs_by_start ON repairs (started_at, seq);',
      ...FILTERED.map(
        (column) => `CREATE INDEX repairs_by_${column} ON repairs (${column}, started_at, seq);`,
      ),
    ].join('\n'),
  },
  {
    version: 3,
    what: 'what the claims of a repair came to, and those that are not shown or not met',
    sql: `
      ALTER TABLE repairs ADD COLUMN claims_shown INTEGER;
      ALTER TABLE repairs ADD COLUMN claims_not_shown INTEGER;
      ALTER TABLE repairs ADD COLUMN claims_not_met INTEGER;
      ALTER TABLE repairs ADD COLUMN not_shown TEXT;
      ALTER TABLE repairs ADD COLUMN not_met TEXT;
      CREATE TABLE open_claims (
        claim TEXT NOT NULL,
        state TEXT NOT NULL,
        seq INTEGER NOT NULL,
        PRIMARY KEY (claim, seq)
      ) STRICT, WITHOUT ROWID;
      CREATE INDEX repairs_by_verdict ON repairs (verdict, started_at, seq);
    `,
    derives: true,
  },
  {
    version: 4,
    what: 'the attempts of a job',
    sql: `
      ALTER TABLE repairs ADD COLUMN job TEXT NOT NULL DEFAULT '';
      ALTER TABLE repairs ADD COLUMN attempt INTEGER NOT NULL DEFAULT 1;
      CREATE INDEX repairs_by_job ON repairs (job, attempt);
    `,
    derives: true,
  },
];

export const SCHEMA_VERSION = MIGRATIONS.at(-1)?.version ?? 0;

export const versionOf = (database: Database): number =>
  pragmaOf(database, 'user_version') as number;

/** Migrates a database of this version or an older one. */
export function migrate(database: Database): void {
  const missing = MIGRATIONS.filter(({ version }) => version > versionOf(database));
  if (missing.length === 0) return;
  inTransaction(database, () => {
    for (const { sql } of missing) database.exec(sql);
    if (missing.some(({ derives }) => derives === true)) deriveRepairs(database);
    database.exec(`PRAGMA user_version = ${SCHEMA_VERSION}`);
  });
}
