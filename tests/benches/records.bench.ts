/**
 * Records at a size that no workshop reaches: 100,000 generated repairs (demo data, seeded). Finding,
 * listing and showing, verifying chain and journals, rebuilding, and exports with their memory. Run
 * by `node tests/benches/run.js records`; a minute or two.
 */
import { spawnSync } from 'node:child_process';
import {
  closeSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  rmSync,
  statSync,
  writeFileSync,
  writeSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { createChance } from '../../sim/random.ts';
import { DAMAGE_TYPES } from '../../src/intake/sheet/job-sheet.ts';
import {
  CHAIN_START,
  type ChainEntry,
  type ChainHead,
  encodeEntry,
  nextEntry,
} from '../../src/store/chain/chain-entry.ts';
import { fileSha256 } from '../../src/store/chain/file-sha256.ts';
import type { RecordFilter } from '../../src/store/index/find.ts';
import { openSqlite } from '../../src/store/index/sqlite.ts';
import { inTransaction } from '../../src/store/index/statements.ts';
import { openRecords, type RecordsStore } from '../../src/store/records-store.ts';
import { rebuildRecords } from '../../src/store/verify/rebuild.ts';
import { verifyRecords } from '../../src/store/verify/verify.ts';
import { chainLinks } from '../../src/store/verify/verify-chain.ts';
import { bodyOf } from '../store/records-folder.ts';

const REPAIRS = 100_000;
const TIMES = 100;
const MOST_MS = 50;
const LEAST_MB_PER_S = 50;
const JOURNALS = 100;
const JOURNAL_BYTES = 2_000_000;
/** From a fifth to the whole: four fifths of the table are 66 MB as text alone, and far more gathered. */
const MOST_GROWTH_MB = 66;

const folder = mkdtempSync(join(tmpdir(), 'meniscus-bench-'));
const chance = createChance(1, 'noise');
const pick = (count: number): number => Math.floor(chance.uniform() * count);
const lines: string[] = [];
let store: RecordsStore;

const technicianOf = (n: number): string => `demo technician ${n}`;
const vehicleOf = (n: number): string => `DEMO ${n}`;

function repairOf(n: number, previous: ChainHead): ChainEntry {
  const id = `demo-${n}`;
  const day = new Date(Date.UTC(2020, 0, 1) + n * 20 * 60_000).toISOString();
  const { damage, result, resin } = bodyOf(id);
  const completed = chance.uniform() < 0.9;
  const grade = ['good', 'caution', 'bad'][pick(3)] ?? 'good';
  const body = bodyOf(id, {
    startedAt: day,
    endedAt: day,
    unit: { name: `demo unit ${pick(3)}`, serial: `demo-${pick(3)}` },
    damage: { ...damage, type: DAMAGE_TYPES[pick(5)] ?? null },
    result: { ...result, grade, endReason: completed ? 'completed' : 'alarm' },
    resin: { ...resin, lot: `demo-lot-${pick(200)}` },
  });
  return nextEntry(previous, { at: day, kind: 'repair', id, body, personalSha256: null });
}

/** Straight into the index: a hundred thousand small files would measure the disk. */
function addPeople(): void {
  const database = openSqlite(join(folder, 'meniscus.db'));
  const insert = database.prepare('INSERT INTO personal (seq, name, value) VALUES (?, ?, ?)');
  const update = database.prepare('UPDATE repairs SET technician = ?, vehicle = ? WHERE seq = ?');
  inTransaction(database, () => {
    for (let seq = 1; seq <= REPAIRS; seq++) {
      const [technician, vehicle] = [technicianOf(pick(5)), vehicleOf(pick(50_000))];
      insert.run(seq, 'technician', technician);
      insert.run(seq, 'vehicle', vehicle);
      update.run(technician, vehicle, seq);
    }
  });
  database.close();
}

beforeAll(() => {
  const file = openSync(join(folder, 'chain.jsonl'), 'w');
  let last = CHAIN_START;
  for (let n = 1; n <= REPAIRS; n++) {
    const entry = repairOf(n, last);
    writeSync(file, `${encodeEntry(entry)}\n`);
    last = entry;
  }
  closeSync(file);
  const { ms } = timed(() => rebuildRecords(folder, 'mark'));
  lines.push(`rebuild of ${REPAIRS}: ${(ms / 1000).toFixed(1)} s`);
  addPeople();
  const opened = openRecords(folder);
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  store = opened.value;
}, 600_000);

afterAll(() => {
  store.close();
  rmSync(folder, { recursive: true, force: true });
  console.info(lines.join('\n'));
});

function timed<T>(action: () => T): { readonly ms: number; readonly value: T } {
  const from = performance.now();
  const value = action();
  return { ms: performance.now() - from, value };
}

function p95(name: string, action: () => unknown): number {
  const sorted = Array.from({ length: TIMES }, () => timed(action).ms).toSorted((a, b) => a - b);
  const at = (share: number): number => sorted[Math.ceil(share * TIMES) - 1] ?? Number.NaN;
  lines.push(`${name}: p50 ${at(0.5).toFixed(2)}, p95 ${at(0.95).toFixed(2)} ms`);
  return at(0.95);
}

const FILTERS: Readonly<Record<string, () => RecordFilter>> = {
  'list, the newest 50': () => ({}),
  'find by vehicle': () => ({ vehicle: vehicleOf(pick(50_000)) }),
  'find by technician, one of five': () => ({ technician: technicianOf(pick(5)) }),
  'find by damage': () => ({ damage: DAMAGE_TYPES[pick(5)] }),
  'find by grade': () => ({ result: 'bad' }),
  'find by end': () => ({ result: 'alarm' }),
  'find by unit, one of three': () => ({ unit: `demo unit ${pick(3)}` }),
  'find by serial number': () => ({ unit: `demo-${pick(3)}` }),
  'find by lot': () => ({ lot: `demo-lot-${pick(200)}` }),
  'find by days': () => ({ from: '2022-01-01', to: '2022-02-01' }),
  'find by lot and technician': () => ({
    lot: `demo-lot-${pick(200)}`,
    technician: technicianOf(1),
  }),
  'find by unit, damage and grade': () => ({ unit: 'demo unit 1', damage: 'crack', result: 'bad' }),
  'find by a vehicle nobody knows': () => ({ vehicle: 'DEMO none' }),
  'find by a lot nobody knows and a technician': () => ({
    lot: 'none',
    technician: technicianOf(1),
  }),
};

test.each(Object.entries(FILTERS))('%s', (name, filterOf) => {
  expect(p95(name, () => store.find({ limit: 50, ...filterOf() }))).toBeLessThanOrEqual(MOST_MS);
});

test('show', () => {
  expect(p95('show', () => store.show(`demo-${1 + pick(REPAIRS)}`))).toBeLessThanOrEqual(MOST_MS);
});

test('append, each on disk', () => {
  let n = 0;
  const body = bodyOf('bench');
  const draft = { at: body.endedAt, kind: 'care' as const, body: { what: 'demo' }, personal: null };
  p95('append', () => store.append({ ...draft, id: `bench-${n++}` }));
});

test('verify the chain alone', () => {
  const megabytes = statSync(join(folder, 'chain.jsonl')).size / 1e6;
  const chain = timed(() => {
    let broken = 0;
    for (const { finding } of chainLinks(folder)) if (finding !== null) broken += 1;
    return broken;
  });
  expect(chain.value).toBe(0);
  const rate = megabytes / (chain.ms / 1000);
  // Told, not judged: of a real folder the chain is a thousandth.
  lines.push(`verify the chain alone, ${megabytes.toFixed(0)} MB: ${rate.toFixed(0)} MB/s`);
});

/** As jobs leave them: journal, personal data, entry and row. */
test('verify whole records', () => {
  const jobs = join(folder, 'jobs');
  mkdirSync(jobs);
  const opened = openRecords(jobs);
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  const journal = Buffer.alloc(JOURNAL_BYTES, '[12.05,[511,0,400,380,700],0]\n');
  for (let n = 0; n < JOURNALS; n++) {
    const id = `job-${n}`;
    mkdirSync(join(jobs, id));
    const path = join(jobs, id, 'journal.jsonl');
    writeFileSync(path, journal);
    const body = bodyOf(id, { journal: { file: 'journal.jsonl', sha256: fileSha256(path) } });
    const personal = { technician: technicianOf(n % 5) };
    opened.value.append({ at: body.endedAt, kind: 'repair', id, body, personal });
  }
  opened.value.close();
  const { ms, value } = timed(() => verifyRecords(jobs, () => undefined));
  expect(value).toMatchObject({ ok: true, entries: JOURNALS, journals: JOURNALS });
  const rate = (JOURNALS * JOURNAL_BYTES) / 1e6 / (ms / 1000);
  lines.push(`verify ${JOURNALS} whole records with journals of 2 MB: ${rate.toFixed(0)} MB/s`);
  expect(rate).toBeGreaterThanOrEqual(LEAST_MB_PER_S);
});

const PROGRAM = fileURLToPath(new URL('../../src/cli/meniscus.js', import.meta.url));
const TELL_MEMORY = `data:text/javascript,process.on('exit',()=>process.stderr.write('RSS '+process.resourceUsage().maxRSS))`;

function exported(format: string, limit: number) {
  const out = join(folder, `table.${format}`);
  const args = ['records', '--records', folder, 'export', '--format', format, '--out', out];
  const { ms, value } = timed(() =>
    spawnSync(
      process.execPath,
      ['--import', TELL_MEMORY, PROGRAM, ...args, '--with-personal', '--limit', String(limit)],
      { encoding: 'utf8' },
    ),
  );
  expect([value.status, value.stderr]).toEqual([0, expect.stringMatching(/^RSS \d+$/)]);
  return { s: ms / 1000, megabytes: Number(value.stderr.slice(4)) / 1024, out };
}

test.each(['csv', 'jsonl', 'parquet'])('export as %s', (format) => {
  const one = exported(format, 1);
  const fifth = exported(format, REPAIRS / 5);
  const all = exported(format, REPAIRS);
  const growth = all.megabytes - fifth.megabytes;
  const size = (statSync(all.out).size / 1e6).toFixed(1);
  const peaks = [one, fifth, all].map(({ megabytes }) => megabytes.toFixed(0)).join(', ');
  lines.push(
    `export as ${format}: ${all.s.toFixed(1)} s, ${size} MB; memory of one row, a fifth, all: ${peaks} MB`,
  );
  expect(growth).toBeLessThan(MOST_GROWTH_MB);
});
