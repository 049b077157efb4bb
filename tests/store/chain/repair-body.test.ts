import { createHash } from 'node:crypto';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { beginBodyOf } from '../../../src/store/chain/begin-body.ts';
import { fileSha256, firstLineSha256 } from '../../../src/store/chain/file-sha256.ts';
import {
  type RepairExtras,
  repairBodyOf,
  unreadRepairBodyOf,
} from '../../../src/store/chain/repair-body.ts';
import { GOOD_JOB, STOPPED } from '../../report/job-story.ts';
import { headerOf } from '../../report/journal-data.ts';
import { reportOf } from '../../report/report-of.ts';
import { recordsFolder } from '../records-folder.ts';

const JOB = {
  damage: { type: 'star-break', diameterMm: 22, pitMm: 2, legs: 5, longestLegMm: 10, depthMm: 1.5 },
  resin: { name: 'demo resin', lot: 'demo-lot-7' },
};
/** The damage of the job above, in the units of an entry. */
const DAMAGE = {
  type: 'star-break',
  diameterM: 0.022,
  pitM: 0.002,
  legs: 5,
  longestLegM: 0.01,
  depthM: 0.0015,
};
const BROKEN_OFF = { reason: 'alarm', why: 'demo', outcome: null } as const;
const EXTRAS: RepairExtras = {
  endedAt: '2026-03-01T09:20:00.000Z',
  assessment: { ruleSets: ['demo rules (1986)'], answer: 'allowed' },
  overrides: [{ item: 'resin', reason: 'the customer waits' }],
  entered: 'at its end',
  journal: { file: 'demo/journal.jsonl', sha256: 'a'.repeat(64) },
  report: { file: 'demo/report.json', sha256: 'b'.repeat(64) },
};

describe('the entry of a repair', () => {
  const body = repairBodyOf(reportOf(GOOD_JOB, { job: JOB }), EXTRAS);

  test('holds what finds, counts and judges it, in SI units', () => {
    expect(body).toMatchObject({
      schema: 'meniscus/repair@1',
      lastsS: 200,
      simulated: true,
      damage: DAMAGE,
      result: { outcome: 'clear', endReason: 'completed' },
      dose: {
        doseJPerM2: 60_200,
        shownJPerM2: 60_000,
        lampOnS: 40,
        irradianceMeanWPerM2: 1505,
      },
      lamp: { lampOnS: 40, cures: 1, films: 1 },
      sealLeakPaM3PerS: 0.001,
      airPa: 100_600,
      cycles: 1,
      alarms: 0,
      resin: { name: 'demo resin', lot: 'demo-lot-7' },
    });
  });

  test('names every claim with its state, and what stands against it', () => {
    const claims = body.result.claims ?? [];
    expect(claims).toHaveLength(17);
    expect(claims).toContainEqual({
      id: 'record',
      portion: null,
      state: 'shown',
      against: [],
    });
    const stopped =
      repairBodyOf(reportOf(STOPPED, { end: BROKEN_OFF }), EXTRAS).result.claims ?? [];
    expect(stopped.find(({ id }) => id === 'completed')).toMatchObject({ state: 'not met' });
    expect(stopped.find(({ id }) => id === 'completed')?.against).not.toEqual([]);
  });

  test('ties its files to the chain, with what its journal does not hold', () => {
    expect(body).toMatchObject({
      endedAt: '2026-03-01T09:20:00.000Z',
      ruleSets: ['demo rules (1986)'],
      assessment: 'allowed',
      overrides: [{ item: 'resin', reason: 'the customer waits' }],
      entered: 'at its end',
      attempt: null,
      journal: { file: 'demo/journal.jsonl', sha256: 'a'.repeat(64) },
      report: { file: 'demo/report.json', sha256: 'b'.repeat(64) },
    });
    expect(body).not.toHaveProperty('samePane');
  });

  test('without assessment, report or other damages says so', () => {
    const bare = { ...EXTRAS, assessment: null, report: null, overrides: [] };
    expect(repairBodyOf(reportOf(), bare)).toMatchObject({
      ruleSets: [],
      assessment: null,
      overrides: [],
      report: null,
      damage: { type: null, diameterM: null, legs: null },
      resin: { name: null, lot: null },
    });
    const more = repairBodyOf(reportOf(), { ...EXTRAS, samePane: ['demo-2'] });
    expect(more).toMatchObject({ samePane: ['demo-2'] });
  });

  test('of a later attempt names the record before it', () => {
    const after = { record: 'demo', journalSha256: 'c'.repeat(64) };
    const attempt = { job: 'demo', number: 2, how: 'go-on', after };
    expect(repairBodyOf(reportOf(), { ...EXTRAS, attempt })).toMatchObject({ attempt });
  });

  test('of a job that was stopped without light has no dose shown and no lamp time', () => {
    expect(repairBodyOf(reportOf(STOPPED), EXTRAS)).toMatchObject({
      dose: { doseJPerM2: 0, shownJPerM2: null, verdict: 'not cured', lampOnS: null },
      lamp: { lampOnS: 0, cures: 0, films: 0 },
      sealLeakPaM3PerS: 0.001,
    });
  });
});

test('a job whose journal cannot be read is entered as bad, with how it ended and no figure', () => {
  const facts = {
    meniscus: '0.1.0',
    startedAt: '2026-03-01T09:00:00.000Z',
    simulated: false,
    serial: 'demo-7',
    inputs: { unit: { name: 'demo unit' }, profile: { name: 'demo profile' }, job: JOB },
    end: { reason: 'fault', why: 'demo' },
  };
  expect(unreadRepairBodyOf(facts, EXTRAS)).toEqual({
    schema: 'meniscus/repair@1',
    meniscus: '0.1.0',
    startedAt: '2026-03-01T09:00:00.000Z',
    endedAt: '2026-03-01T09:20:00.000Z',
    lastsS: null,
    simulated: false,
    unit: { name: 'demo unit', serial: 'demo-7' },
    profile: 'demo profile',
    damage: DAMAGE,
    ruleSets: ['demo rules (1986)'],
    assessment: 'allowed',
    result: {
      verdict: 'journal cannot be read',
      grade: 'bad',
      claims: null,
      outcome: null,
      endReason: 'fault',
      why: 'demo',
    },
    dose: null,
    lamp: null,
    sealLeakPaM3PerS: null,
    airPa: null,
    cycles: 0,
    resin: { name: 'demo resin', lot: 'demo-lot-7' },
    overrides: [{ item: 'resin', reason: 'the customer waits' }],
    alarms: 0,
    attempt: null,
    entered: 'at its end',
    journal: { file: 'demo/journal.jsonl', sha256: 'a'.repeat(64) },
    report: { file: 'demo/report.json', sha256: 'b'.repeat(64) },
  });
});

const sha256 = (text: string): string => createHash('sha256').update(text).digest('hex');

test('a job that begins is entered with the hash of its first line and its path', () => {
  const records = recordsFolder();
  const folder = join(records, 'demo', 'attempt-2');
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, 'journal.jsonl'), 'header\nline\n');
  const { startedAt, seed, board } = headerOf();
  expect(beginBodyOf(records, folder, { startedAt, seed, board })).toEqual({
    schema: 'meniscus/begin@1',
    startedAt,
    simulated: true,
    serial: board.serial,
    journal: { file: 'demo/attempt-2/journal.jsonl', headerSha256: sha256('header') },
  });
});

test('a file is hashed whole or to the end of its first line, whatever its length', () => {
  const path = join(recordsFolder(), 'file');
  for (const length of [0, 1, 65_535, 65_536, 65_537, 1_048_577]) {
    const line = 'x'.repeat(length);
    writeFileSync(path, `${line}\nrest\n`);
    expect(firstLineSha256(path)).toBe(sha256(line));
    expect(fileSha256(path)).toBe(sha256(`${line}\nrest\n`));
    writeFileSync(path, line);
    expect(firstLineSha256(path)).toBe(sha256(line));
  }
  expect(() => fileSha256(`${path}-that-is-not`)).toThrow(/ENOENT/);
});
