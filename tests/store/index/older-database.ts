/**
 * An index as older programs wrote it, typed out here: before the columns of claims (versions 1 and
 * 2), and before those of attempts (version 3, whose claims are left empty).
 */
import { type ChainEntry, encodeEntry } from '../../../src/store/chain/chain-entry.ts';
import type { RepairBody } from '../../../src/store/chain/repair-body.ts';
import { MIGRATIONS } from '../../../src/store/index/schema.ts';
import { type Database, openSqlite } from '../../../src/store/index/sqlite.ts';

interface OlderEntry {
  readonly entry: ChainEntry;
  readonly endsAt: number;
  readonly technician: string;
}

const REPAIR = `INSERT INTO repairs (seq, id, started_at, ended_at, simulated, unit, serial, profile,
    damage, diameter_m, longest_leg_m, depth_m, rule_sets, assessment, end_reason, outcome, verdict,
    grade, dose_verdict, dose_j_per_m2, target_j_per_m2, lamp_on_s, resin, lot, alarms, overrides,
    journal_sha256, technician)
  VALUES (?, ?, ?, ?, 1, ?, ?, ?, ?, ?, ?, ?, '', NULL, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, 0, ?, ?)`;

export function olderDatabase(
  path: string,
  version: 1 | 2 | 3,
  rows: readonly OlderEntry[],
): Database {
  const database = openSqlite(path);
  for (const { sql } of MIGRATIONS.filter((one) => one.version <= version)) database.exec(sql);
  database.exec(`PRAGMA user_version = ${version}`);
  for (const row of rows) insert(database, row);
  return database;
}

function insert(database: Database, { entry, endsAt, technician }: OlderEntry): void {
  const { seq, at, kind, id, hash } = entry;
  const body = entry.body as unknown as RepairBody;
  const { unit, damage, result, dose, resin } = body;
  database
    .prepare(
      'INSERT INTO entries (seq, at, kind, id, hash, line, ends_at) VALUES (?, ?, ?, ?, ?, ?, ?)',
    )
    .run(seq, at, kind, id, hash, encodeEntry(entry), endsAt);
  database
    .prepare(REPAIR)
    .run(
      ...[seq, id, body.startedAt, body.endedAt, unit.name, unit.serial, body.profile],
      ...[damage.type, damage.diameterM, damage.longestLegM, damage.depthM],
      ...[result.endReason, result.outcome, result.verdict, result.grade],
      ...[dose?.verdict ?? null, dose?.doseJPerM2 ?? null, dose?.targetJPerM2 ?? null],
      ...[dose?.lampOnS ?? null, resin.name, resin.lot, body.alarms, body.journal.sha256],
      technician,
    );
  database
    .prepare("INSERT INTO personal (seq, name, value) VALUES (?, 'technician', ?)")
    .run(seq, technician);
}
