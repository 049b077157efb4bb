import { createHash } from 'node:crypto';
import { cpSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { entryFromJournal } from '../../../src/cli/records/entry-from-journal.ts';
import { thisUnit, unitFolder } from '../../../src/cli/terminal/this-unit.ts';
import type { ChainEntry, JsonValue } from '../../../src/store/chain/chain-entry.ts';
import { keyPath } from '../../../src/store/chain/unit-key.ts';
import { entriesOf, linkedAgain, writeEntries } from '../../store/verify/signed-records.ts';
import { runHere } from '../here.ts';
import { scratchFolder } from '../process.ts';

const folder = scratchFolder();
const at = (...path: readonly string[]): string => join(folder, 'records', ...path);
const JOURNAL = at('demo-0001', 'journal.jsonl');
const verify = (...args: readonly string[]) => runHere(['records', 'verify', ...args], folder);

/** A job that was stopped, recorded and put aside whole. */
beforeAll(async () => {
  const { code } = await runHere(['run', '--speed', 'max', '--fault', 'emergency-stop'], folder);
  expect(code).toBe(4);
  cpSync(at(), join(folder, 'whole'), { recursive: true });
});

beforeEach(() => {
  rmSync(at(), { recursive: true });
  cpSync(join(folder, 'whole'), at(), { recursive: true });
});

type Body = Readonly<Record<string, JsonValue>>;

/** By somebody who has the unit's key: the entry of the repair changed, and everything signed again. */
function signedAnew(change: (body: Body) => Body): void {
  const unit = thisUnit();
  if (!unit.ok) throw new Error(JSON.stringify(unit.problems));
  const entries = entriesOf(at()).map(
    (entry): ChainEntry =>
      entry.kind === 'repair' ? { ...entry, body: change(entry.body as Body) } : entry,
  );
  writeEntries(at(), linkedAgain(entries, unit.value.signer));
  rmSync(at('meniscus.db'));
}

/** The journal edited line by line, with its own checksum made again. */
function journalEdited(edit: (line: string) => string | null): void {
  const lines = readFileSync(JOURNAL, 'utf8').trimEnd().split('\n');
  const { end } = JSON.parse(lines.pop() ?? '');
  const kept = lines.flatMap((line) => edit(line) ?? []);
  const events = kept.filter((line) => line.startsWith('{"event"')).length;
  const text = `${kept.join('\n')}\n`;
  const sha256 = createHash('sha256').update(text).digest('hex');
  writeFileSync(JOURNAL, `${text}${JSON.stringify({ end: { ...end, events, sha256 } })}\n`);
}

const resultOf = ({ result }: Body): Body => result as Body;

describe('an entry signed again with the key of the unit', () => {
  test.each([
    [
      'that turns a stopped job into a completed one',
      'result',
      (body: Body) => ({
        ...body,
        result: { ...resultOf(body), endReason: 'completed', verdict: 'within limits' },
      }),
    ],
    ['that says of no alarm', 'alarms', (body: Body) => ({ ...body, alarms: 0 })],
    [
      'that states more light',
      'dose',
      (body: Body) => ({ ...body, dose: { ...(body['dose'] as Body), doseJPerM2: 60_000 } }),
    ],
    [
      'that names another bottle',
      'resin',
      (body: Body) => ({ ...body, resin: { name: 'demo resin', lot: 'demo-fresh' } }),
    ],
    [
      'that calls a simulated job a real one',
      'simulated',
      (body: Body) => ({ ...body, simulated: false }),
    ],
  ])('%s does not follow from its journal', async (_, field, change) => {
    signedAnew(change);
    const { code, out } = await verify();
    expect(code).toBe(1);
    expect(out).toContain(
      `journal at entry 2 (demo-0001): ${field}, derived from the journal again`,
    );
  });

  test('over a journal from which the alarm was taken does not decide the same again', async () => {
    journalEdited((line) => (line.includes('"kind":"alarm"') ? null : line));
    const found = entryFromJournal(at(), 'demo-0001');
    if (!found.ok) throw new Error(found.why);
    signedAnew(({ entered, endedAt, report }) => ({
      ...found.body,
      entered: entered ?? null,
      endedAt: endedAt ?? null,
      report: report ?? null,
    }));
    const { code, out } = await verify();
    expect(code).toBe(1);
    expect(out).toMatch(/journal at entry 2 \(demo-0001\): event at [\d.]+ s, decided again/);
    expect(out).not.toContain('derived from the journal again');
  });

  test('over a journal that cannot be read follows from nothing', async () => {
    journalEdited((line) => (line.startsWith('{"snapshot"') ? '{"snapshot"' : line));
    const sha256 = createHash('sha256').update(readFileSync(JOURNAL)).digest('hex');
    signedAnew(({ journal, ...body }) => ({ ...body, journal: { ...(journal as Body), sha256 } }));
    const { code, out } = await verify();
    expect(code).toBe(1);
    expect(out).toMatch(/journal at entry 2 \(demo-0001\): the entry, derived from the journal/);
  });
});

test('the key of the unit is never overwritten, whoever insists', async () => {
  const key = keyPath(unitFolder());
  const before = readFileSync(key);
  for (const args of [['--force'], []]) {
    const { code, err } = await runHere(['records', 'export', '--out', key, ...args], folder);
    expect([code, err]).toEqual([2, expect.stringContaining('the key of a unit')]);
  }
  expect(readFileSync(key)).toEqual(before);
});

test('a stopped job tells its customer why it ended, and not what to do at the unit', () => {
  const page = readFileSync(at('demo-0001', 'certificate.html'), 'utf8');
  expect(page).toContain('Emergency stop. Expected button released, seen button pressed.');
  expect(page).not.toContain('turn the button');
  expect(readFileSync(at('demo-0001', 'report.html'), 'utf8')).toContain('turn the button');
});

describe('a certificate that was given out', () => {
  const page = at('demo-0001', 'certificate.pdf');
  const hashOf = (seq: number): string => entriesOf(at())[seq - 1]?.hash ?? '';
  const code = (): string => `meniscus:record:demo-0001:${hashOf(2)}`;

  test.each(['certificate.pdf', 'certificate.html'])('%s is known to the chain', async (name) => {
    const { code: ended, out } = await verify('--certificate', at('demo-0001', name));
    expect(ended).toBe(0);
    expect(out).toContain('entry 2 (demo-0001, ');
    expect(out).toContain('the file is as it was written: entry 3 vouches for it');
  });

  test('that was changed by one byte is not as it was written', async () => {
    const copy = join(folder, 'copy.pdf');
    writeFileSync(copy, Buffer.concat([readFileSync(page), Buffer.from('\n')]));
    const { code: ended, out } = await verify('--certificate', copy);
    expect(ended).toBe(1);
    expect(out).toContain('papers at entry 3 (demo-0001): salted SHA-256 of the file');
  });

  test('shows by the text of its code that the chain was cut', async () => {
    const whole = code();
    expect(await verify('--certificate', whole)).toMatchObject({ code: 0 });
    writeEntries(at(), entriesOf(at()).slice(0, 1));
    const { code: ended, out } = await verify('--certificate', whole);
    expect(ended).toBe(1);
    expect(out).toContain('none: the chain was cut or rewritten');
  });

  test('shows that every entry was signed by another key', async () => {
    const other = `${code()}:${'0'.repeat(32)}`;
    const { code: ended, out } = await verify('--certificate', other);
    expect(ended).toBe(1);
    expect(out).toContain('unit key: expected 00000000000000000000000000000000');
  });

  test.each([
    ['no-such-file.pdf', 'no-such-file.pdf, no code'],
    ['records/chain.jsonl', 'records/chain.jsonl, a file without a code'],
  ])('is asked for where %s is none', async (given, words) => {
    const { code: ended, err } = await verify('--certificate', given);
    expect([ended, err]).toEqual([2, expect.stringContaining(words)]);
  });

  test('is not needed for a hash that was noted elsewhere', async () => {
    expect(await verify('--expect', hashOf(3))).toMatchObject({ code: 0 });
    expect(await verify('--expect', hashOf(3).slice(0, 16))).toMatchObject({ code: 0 });
    expect(await verify('--expect', 'f'.repeat(64))).toMatchObject({ code: 1 });
    expect(await verify('--expect', 'f00')).toMatchObject({ code: 2 });
  });
});
