/** A folder of records for one test, gone after it, with hand-made repairs: demo data throughout. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, onTestFinished } from 'vitest';
import { sha256Of } from '../../src/core/canonical-json.ts';
import type { ChainEntry } from '../../src/store/chain/chain-entry.ts';
import { REPAIR_SCHEMA, type RepairBody } from '../../src/store/chain/repair-body.ts';
import { type OpenOptions, openRecords, type RecordsStore } from '../../src/store/records-store.ts';

export function recordsFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'meniscus-records-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** One folder for all tests of a file. */
export function folderForFile(): string {
  const folder = mkdtempSync(join(tmpdir(), 'meniscus-records-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** Opened, or the test fails. */
export function openedIn(folder: string, options?: OpenOptions): RecordsStore {
  const checked = openRecords(folder, options);
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  return checked.value;
}

/** The same, and closed after the test. */
export function opened(folder: string, options?: OpenOptions): RecordsStore {
  const store = openedIn(folder, options);
  onTestFinished(() => store.close());
  return store;
}

export const journalTextOf = (id: string): string => `{"demo journal of":"${id}"}\n[1,2,3]\n`;

type Change = { readonly [K in keyof RepairBody]?: RepairBody[K] };

export const bodyOf = (id: string, change: Change = {}): RepairBody => ({
  schema: REPAIR_SCHEMA,
  meniscus: '0.0.0',
  startedAt: '2026-03-01T09:00:00.000Z',
  endedAt: '2026-03-01T09:20:00.000Z',
  lastsS: 1200,
  simulated: true,
  unit: { name: 'demo unit', serial: 'demo-1' },
  profile: 'demo profile',
  damage: {
    type: 'star-break',
    diameterM: 0.022,
    pitM: 0.002,
    legs: 5,
    longestLegM: 0.01,
    depthM: 0.0015,
  },
  airPa: 100_600,
  ruleSets: [],
  assessment: null,
  result: {
    verdict: 'process within its limits',
    grade: 'good',
    claims: [{ id: 'dose', portion: 'fill and pit', state: 'shown', against: [] }],
    outcome: 'clear',
    endReason: 'completed',
    why: 'demo',
  },
  dose: {
    doseJPerM2: 60_200,
    targetJPerM2: 60_000,
    shownJPerM2: 60_000,
    verdict: 'met',
    lampOnS: 400,
    irradianceMeanWPerM2: 150,
  },
  lamp: { lampOnS: 60, cures: 1, films: 1, fullDriveWPerM2: 195 },
  sealLeakPaM3PerS: 0.001,
  cycles: 2,
  resin: { name: 'demo resin', lot: 'demo-lot-1' },
  overrides: [],
  alarms: 0,
  attempt: null,
  entered: 'at its end',
  journal: { file: 'journal.jsonl', sha256: sha256Of(journalTextOf(id)) },
  report: null,
  ...change,
});

/** Makes the job's folder with its journal, and appends the repair. */
export function addRepair(
  folder: string,
  store: RecordsStore,
  id: string,
  change: Change = {},
  personal: Readonly<Record<string, string>> | null = null,
): ChainEntry {
  mkdirSync(join(folder, id));
  writeFileSync(join(folder, id, 'journal.jsonl'), journalTextOf(id));
  const body = bodyOf(id, change);
  return store.append({ at: body.endedAt, kind: 'repair', id, body, personal });
}
