import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { describe, expect, test } from 'vitest';
import { runHere } from '../here.ts';
import { scratchFolder, writeJson } from '../process.ts';

const folder = scratchFolder();

const GAUGE = [
  ...['--by', 'Demo Person', '--reference-name', 'demo gauge', '--certificate', 'D-1'],
  ...['--reference-uncertainty', '0.05', '--speed', 'max', '--json'],
];
const calibrate = (records: string, ...more: readonly string[]) =>
  runHere(['calibrate', 'pressure', ...GAUGE, '--records', records, ...more], folder);

interface Outcome {
  readonly kept: boolean;
  readonly body: {
    readonly passed: boolean;
    readonly before: unknown;
    readonly after: unknown;
    readonly points: readonly { reference: number; reading: number }[];
    readonly uncertainty: { standard: number };
    readonly validUntil: string;
  };
}

const shift = (counts: number): string =>
  writeJson(folder, `shift-${counts}.json`, {
    schema: 'meniscus/faults@1',
    faults: [{ kind: 'sensor-offset', channel: 'pressure', amount: counts, from: { atS: 0 } }],
  });

describe('a sensor that has shifted', () => {
  test('is calibrated, and reads right from then on', async () => {
    const fault = shift(6);
    const first = await calibrate('shifted', '--fault', fault);
    expect(first.code).toBe(0);
    const found = JSON.parse(first.out) as Outcome;
    const [air] = found.body.points;
    if (air === undefined) throw new Error('no point');
    expect(air.reading - air.reference).toBeGreaterThan(2_500);
    expect(found.body.validUntil).toBe('2000-12-31');

    // The next command reads the record and puts what is in it into force.
    const second = await calibrate('shifted', '--fault', fault, '--seed', '1');
    const again = JSON.parse(second.out) as Outcome;
    expect(again.body.before).toEqual(found.body.after);
    for (const { reference, reading } of again.body.points) {
      expect(Math.abs(reading - reference)).toBeLessThan(3 * found.body.uncertainty.standard);
    }
  });

  test('by more than any drift is kept as not passed and changes nothing', async () => {
    const fault = shift(20);
    const first = await calibrate('far', '--fault', fault);
    expect(first.code).toBe(1);
    const { body, kept } = JSON.parse(first.out) as Outcome;
    expect(kept).toBe(true);
    expect(body.passed).toBe(false);
    expect(body.after).toEqual(body.before);
    expect(first.err).toContain('Look for a leak');
    const second = await calibrate('far');
    expect((JSON.parse(second.out) as Outcome).body.before).toEqual(body.before);
  });
});

test('whoever did it is kept apart from the chain', async () => {
  await calibrate('people');
  const chain = readFileSync(join(folder, 'people', 'chain.jsonl'), 'utf8');
  expect(chain).toContain('"kind":"care"');
  expect(chain).not.toContain('Demo Person');
  const personal = readFileSync(join(folder, 'people', 'personal', '2.json'), 'utf8');
  expect(personal).toContain('Demo Person');
});

test('what is stopped by an alarm keeps nothing and says why', async () => {
  const fault = writeJson(folder, 'stop.json', {
    schema: 'meniscus/faults@1',
    faults: [{ kind: 'emergency-stop', from: { step: 'P6', afterS: 0.3 } }],
  });
  const { code, out, err } = await calibrate('stopped', '--fault', fault);
  expect(code).toBe(4);
  expect((JSON.parse(out) as Outcome).kept).toBe(false);
  expect(err).toContain('Emergency stop');
  // That it was begun stays on record.
  const chain = readFileSync(join(folder, 'stopped', 'chain.jsonl'), 'utf8')
    .trim()
    .split('\n');
  expect(chain.map((line) => JSON.parse(line).kind)).toEqual(['begin']);
});

describe('the journal of a calibration', () => {
  const journalIn = (records: string, run = 'calibration-pressure-2000-01-01T080000') =>
    join(records, 'care', run, 'journal.jsonl');

  test('lies beside its entry, which states its hash, and is replayed like a repair', async () => {
    const { code } = await calibrate('replayed', '--values', '100.61');
    expect(code).toBe(0);
    const file = journalIn('replayed');
    const [, line = ''] = readFileSync(join(folder, 'replayed', 'chain.jsonl'), 'utf8').split('\n');
    const { journal } = JSON.parse(line).body;
    const sha256 = createHash('sha256')
      .update(readFileSync(join(folder, file)))
      .digest('hex');
    expect(journal).toEqual({ file: relative('replayed', file), sha256 });
    const replayed = await runHere(['replay', file], folder);
    expect(replayed.out).toContain('every decision is the same');
    expect(replayed.code).toBe(0);
  });

  test('is found to differ once a reading in it is another', async () => {
    await calibrate('changed');
    const file = join(folder, journalIn('changed'));
    const lines = readFileSync(file, 'utf8').split('\n');
    const at = lines.findIndex((line) => line.includes('"step":"air-read"'));
    const spoilt = lines.map((line, i) => (i < at || !line.startsWith('[') ? line : lower(line)));
    writeFileSync(file, spoilt.join('\n'));
    const { code, out } = await runHere(['replay', file], folder);
    expect(code).toBe(1);
    expect(out).toContain('decisions differ');
    const verified = await runHere(['records', 'verify', '--records', 'changed'], folder);
    expect(verified.code).toBe(1);
    expect(verified.out + verified.err).toContain('SHA-256 of journal.jsonl');
  });

  test('is kept where the procedure was stopped as well, and another has a folder of its own', async () => {
    const fault = writeJson(folder, 'dead.json', {
      schema: 'meniscus/faults@1',
      faults: [{ kind: 'emergency-stop', from: { step: 'P6', afterS: 0.3 } }],
    });
    await calibrate('twice', '--fault', fault);
    await calibrate('twice');
    const file = journalIn('twice');
    const stopped = await runHere(['replay', file], folder);
    expect(stopped.code).toBe(0);
    const second = journalIn('twice', 'calibration-pressure-2000-01-01T080000.2');
    expect((await runHere(['replay', second], folder)).code).toBe(0);
    const verified = await runHere(['records', 'verify', '--records', 'twice'], folder);
    expect(verified.code).toBe(0);
    expect(verified.out).toContain('1 journal');
  });

  test('makes no report of a repair', async () => {
    await calibrate('no-report');
    const { code, err } = await runHere(['report', journalIn('no-report')], folder);
    expect(code).toBe(2);
    expect(err).toContain('header.procedure is pressure; accepted: the journal of a repair');
  });
});

/** The pressure counts of a tick, four steps lower. */
const lower = (line: string): string =>
  JSON.stringify(
    JSON.parse(line).map((field: unknown, i: number) => (i === 3 ? Number(field) - 4 : field)),
  );

describe('bad input', () => {
  test.each([
    [['--values', '100.6,abc'], 'accepted: up to 20 numbers'],
    [['--values', '1013'], '1013 is not accepted; accepted: from 0 to 400 kPa abs'],
    [['--reference-uncertainty', '0'], 'accepted: a number above 0'],
    [['--guided', 'nowhere.json'], 'nowhere.json'],
    [['--port', 'auto', '--manual'], 'cannot be used with'],
  ])('%j is refused before anything moves', async (more, words) => {
    const { code, err } = await calibrate('bad', ...more);
    expect(code).toBe(2);
    expect(err).toContain(words);
    expect(existsSync(join(folder, 'bad', 'chain.jsonl'))).toBe(false);
  });

  const RADIOMETER = [
    ...['calibrate', 'uv', '--by', 'Demo Person', '--reference-name', 'demo radiometer'],
    ...['--certificate', 'D-2', '--reference-uncertainty', '4', '--records', 'uv-bad'],
  ];
  test.each([
    [[], '--at-nm is not stated; accepted: the wavelength that the radiometer'],
    [['--at-nm', '254'], '--at-nm 254 is not accepted'],
    [['--at-nm', '395'], '--at-nm is 395 nm; accepted: from 355 to 375 nm, because the lamp peaks'],
    [['--at-nm', '376'], '--at-nm is 376 nm; accepted: from 355 to 375 nm, because the lamp peaks'],
  ])('a radiometer with %j is refused before the lamp burns', async (more, words) => {
    const { code, err } = await runHere([...RADIOMETER, ...more], folder);
    expect(code).toBe(2);
    expect(err).toContain(words);
    expect(existsSync(join(folder, 'uv-bad', 'chain.jsonl'))).toBe(false);
  });

  test('a wavelength for a gauge is refused', async () => {
    const { code, err } = await calibrate('bad', '--at-nm', '365');
    expect([code, err]).toEqual([2, expect.stringContaining('--at-nm belongs to uv')]);
  });

  test('without a reference there is no calibration', async () => {
    const { code, err } = await runHere(['calibrate', 'uv', '--by', 'Demo Person'], folder);
    expect(code).toBe(2);
    expect(err).toContain('--reference-name');
  });
});
