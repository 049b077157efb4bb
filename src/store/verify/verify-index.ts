/**
 * Compares the database with the chain: every entry, every column of a repair and every personal
 * field is derived again from the chain. A database that is missing or behind is no damage, because
 * it is rebuilt or caught up from the chain; one that states something else is.
 */
import { existsSync } from 'node:fs';
import { canonicalJson } from '../../core/canonical-json.ts';
import type { ChainEntry } from '../chain/chain-entry.ts';
import { endFinding, type Finding } from '../chain/finding.ts';
import { databasePath } from '../chain/paths.ts';
import { type OpenClaim, openClaimsOf } from '../index/claim-columns.ts';
import { headOf } from '../index/index-file.ts';
import { SCHEMA_VERSION, versionOf } from '../index/schema.ts';
import { type Database, loadSqlite, openSqlite } from '../index/sqlite.ts';
import { isDatabaseError, pragmaOf, whileOpen } from '../index/statements.ts';
import { REPAIR_COLUMNS, repairRowOf } from '../index/store-rows.ts';

export interface IndexCheck {
  readonly check: (
    entry: ChainEntry,
    bytes: Buffer,
    fields: Readonly<Record<string, string>> | null,
  ) => Finding | null;
  /** `last` is the last entry of the chain. */
  readonly finish: (last: number) => {
    readonly finding: Finding | null;
    readonly remark: string | null;
  };
}

const NOTHING: IndexCheck = { check: () => null, finish: () => ({ finding: null, remark: null }) };

export function createIndexCheck(folder: string): IndexCheck {
  const path = databasePath(folder);
  const sqlite = loadSqlite();
  if (!sqlite.ok) {
    return endingWith(null, `the SQLite module ${sqlite.why}: meniscus.db was not compared`);
  }
  if (!existsSync(path)) return endingWith(null, 'meniscus.db is missing; it can be rebuilt');
  try {
    return whileOpen(openSqlite(path, true), notComparable) ?? checkOn(openSqlite(path, true));
  } catch (error) {
    if (!isDatabaseError(error)) throw error;
    return endingWith(damaged(error.message), null);
  }
}

function notComparable(database: Database): IndexCheck | null {
  const version = versionOf(database);
  if (version !== SCHEMA_VERSION) {
    return endingWith(null, `meniscus.db is of version ${version} and was not compared`);
  }
  const found = pragmaOf(database, 'quick_check(1)');
  return found === 'ok' ? null : endingWith(damaged(String(found)), null);
}

const damaged = (found: string): Finding => ({
  where: 'database',
  seq: null,
  id: null,
  what: 'meniscus.db',
  expected: 'a database that can be read',
  found,
});

const endingWith = (finding: Finding | null, remark: string | null): IndexCheck => ({
  ...NOTHING,
  finish: () => ({ finding, remark }),
});

function checkOn(database: Database): IndexCheck {
  const entryLine = database.prepare('SELECT line FROM entries WHERE seq = ?');
  const repair = database.prepare(`SELECT ${REPAIR_COLUMNS} FROM repairs r WHERE r.seq = ?`);
  const openClaims = database.prepare(
    'SELECT claim, state FROM open_claims WHERE seq = ? ORDER BY claim',
  );
  const personal = database.prepare('SELECT name, value FROM personal WHERE seq = ?');
  const known = headOf(database).seq;
  return {
    check: (entry, bytes, fields) => {
      const { seq, id } = entry;
      if (seq > known) return null;
      const differs = (what: string, expected: string, found: unknown): Finding | null =>
        found === expected
          ? null
          : { where: 'database', seq, id, what, expected, found: String(found ?? 'no row') };
      const { line } = (entryLine.get(seq) ?? {}) as { readonly line?: unknown };
      const row = entry.kind === 'repair' ? repair.get(seq) : null;
      const expected = row === null ? null : repairRowOf(entry, fields ?? {});
      return (
        (line === bytes.toString('utf8')
          ? null
          : differs('line of the entry', 'as in the chain', line)) ??
        (expected === null
          ? null
          : (differs('columns of the repair', canonicalJson(expected), spelled(row)) ??
            differs(
              'claims of the repair',
              canonicalJson(openClaimsOf(expected).toSorted(byClaim)),
              canonicalJson(openClaims.all(seq)),
            ))) ??
        differs(
          'personal fields',
          canonicalJson(fields ?? {}),
          canonicalJson(Object.fromEntries((personal.all(seq) as Named[]).map(namedPair))),
        )
      );
    },
    finish: (last) => {
      const { seq, hash } = headOf(database);
      database.close();
      if (seq > last) return { finding: endFinding({ seq, hash }, last), remark: null };
      const behind = `meniscus.db is ${last - seq} entries behind; it catches up when it is next opened`;
      return { finding: null, remark: seq < last ? behind : null };
    },
  };
}

const byClaim = (one: OpenClaim, other: OpenClaim): number => (one.claim < other.claim ? -1 : 1);

interface Named {
  readonly name: string;
  readonly value: string;
}

const namedPair = ({ name, value }: Named): readonly [string, string] => [name, value];

const spelled = (row: unknown): string | null => (row === undefined ? null : canonicalJson(row));
