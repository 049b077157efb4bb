import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import builtInJob from '../../../src/app/defaults/job.json' with { type: 'json' };
import { runHere } from '../here.ts';
import { type Ended, runProgram, scratchFolder, writeJson } from '../process.ts';

const folder = scratchFolder();
/** Ends within minutes, by an alarm. */
const BRIEF = ['--fault', 'emergency-stop'];
const journalIn = (records: string): string => join(folder, records, 'demo-0001', 'journal.jsonl');

/** Without the header, in which the seed stands by itself. */
const framesOf = (record: string): readonly string[] =>
  readFileSync(join(record, 'journal.jsonl'), 'utf8')
    .split('\n')
    .filter((line) => line.startsWith('['));

describe('the demo repair', () => {
  let first: Ended;
  beforeAll(async () => {
    first = await runProgram(['run', '--speed', 'max', '--records', 'a'], folder);
  });

  test('ends well and says where the report is', () => {
    expect(first.code).toBe(0);
    expect(first.out).toContain('Job completed, break clear');
    expect(first.out).toContain(join('a', 'demo-0001', 'report.html'));
    for (const name of ['journal.jsonl', 'report.html', 'report.json']) {
      expect(existsSync(join(folder, 'a', 'demo-0001', name))).toBe(true);
    }
  });

  // The program's own lines on stderr report problems only.
  test('prints nothing on stderr, nor does its report, nor the help', async () => {
    const help = await runProgram(['--help'], folder);
    const report = await runProgram(['report', 'demo-0001', '--records', 'a'], folder);
    for (const { code, err } of [first, help, report]) expect([code, err]).toEqual([0, '']);
  });

  test('gives the same journal byte for byte from the same seed, and another from another', async () => {
    await runHere(['run', '--speed', 'max', '--records', 'b'], folder);
    await runHere(['run', '--speed', 'max', '--records', 'c', '--seed', '2', ...BRIEF], folder);
    await runHere(['run', '--speed', 'max', '--records', 'c', '--seed', '1', ...BRIEF], folder);
    expect(readFileSync(journalIn('b')).equals(readFileSync(journalIn('a')))).toBe(true);
    const frames = (name: string): readonly string[] => framesOf(join(folder, 'c', name));
    expect(frames('demo-0001')).not.toEqual(frames('demo-0001.2'));
    expect(frames('demo-0001').length).toBeGreaterThan(1000);
  });

  test('never overwrites a record', async () => {
    const before = readFileSync(journalIn('a'));
    await runHere(['run', '--speed', 'max', '--records', 'a', '--seed', '3', ...BRIEF], folder);
    expect(readFileSync(journalIn('a')).equals(before)).toBe(true);
    expect(existsSync(join(folder, 'a', 'demo-0001.2', 'journal.jsonl'))).toBe(true);
  });

  test('replays to the same decisions', async () => {
    const { code, out } = await runHere(['replay', journalIn('a')], folder);
    expect(out).toContain('every decision is the same');
    expect(code).toBe(0);
  });
});

test('what is simulated can come from a file: a wide gap fills in one cycle', async () => {
  const gap = {
    kind: 'leg',
    count: 3,
    lengthMm: 6,
    endRatio: 0.5,
    fingerPercent: 20,
    widthMm: 1.5,
  };
  const plant = writeJson(folder, 'plant.json', {
    schema: 'meniscus/plant@1',
    break: { gaps: [{ ...gap, mouthApertureUm: 15 }] },
  });
  const { code, out } = await runHere(
    ['run', '--speed', 'max', '--records', 'plant', '--plant', plant],
    folder,
  );
  expect(code).toBe(0);
  expect(out).toContain('6.2 fill-pit, cycle 1');
  const [header = ''] = readFileSync(journalIn('plant'), 'utf8').split('\n');
  expect(header).toContain('"lengthM":0.006');
});

describe('ending early', () => {
  test.each(['SIGINT', 'SIGTERM'] as const)(
    '%s makes safe, closes the journal and says why',
    async (signal) => {
      let sent = false;
      const records = `early-${signal}`;
      const { code, out } = await runProgram(
        ['run', '--speed', '100', '--records', records],
        folder,
        (printed, kill) => {
          if (sent || !printed.includes('5.2 vacuum-dwell')) return;
          sent = true;
          kill(signal);
        },
      );
      expect(code).toBe(130);
      expect(out).toContain(`Ended by ${signal}`);
      const lines = readFileSync(journalIn(records), 'utf8').trimEnd().split('\n');
      expect(lines.at(-1)).toContain('"interrupted"');
      expect(lines.at(-1)).toContain(`Ended by ${signal}`);
    },
  );

  test('an alarm that aborts gives exit code 4, a person who stops exit code 3', async () => {
    const abort = await runHere(
      ['run', '--speed', 'max', '--records', 'd', '--fault', 'emergency-stop'],
      folder,
    );
    expect(abort.code).toBe(4);
    const stop = await runHere(
      ['run', '--speed', 'max', '--records', 'e', '--fault', 'runaway-pump'],
      folder,
    );
    expect(stop.code).toBe(3);
  });
});

test('a byte order mark before a file is no part of it', async () => {
  const marked = writeJson(folder, 'marked.json', `\ufeff${JSON.stringify(builtInJob)}`);
  const records = join(folder, 'marked');
  const { code } = await runHere(
    ['run', '--speed', 'max', '--job', marked, '--records', records, ...BRIEF],
    folder,
  );
  expect(code).toBe(4);
});

test('no record is named so that a command would take it for an option', async () => {
  const job = writeJson(folder, 'minus.json', { ...builtInJob, reference: '-1-1' });
  const records = join(folder, 'minus');
  const { code, out } = await runHere(
    ['run', '--speed', 'max', '--job', job, '--records', records, ...BRIEF],
    folder,
  );
  expect(code).toBe(4);
  expect(out).toContain('Record: 1-1, entry 2');
});
