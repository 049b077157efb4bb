import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { runProgram, scratchFolder, writeJson } from './process.ts';

const folder = scratchFolder();

const GAUGE = [
  ...['--by', 'Demo Person', '--reference-name', 'demo gauge', '--certificate', 'D-1'],
  ...['--reference-uncertainty', '0.05', '--speed', 'max', '--json'],
];
const calibrate = (records: string, ...more: readonly string[]) =>
  runProgram(['calibrate', 'pressure', ...GAUGE, '--records', records, ...more], folder);

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
  const personal = readFileSync(join(folder, 'people', 'personal', '1.json'), 'utf8');
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
  expect(existsSync(join(folder, 'stopped', 'chain.jsonl'))).toBe(false);
});

describe('bad input', () => {
  test.each([
    [['--values', '100.6,abc'], 'accepted: up to 20 numbers'],
    [['--values', '1013'], '1013 is not accepted; accepted: from 0 to 400 kPa abs'],
    [['--reference-uncertainty', '0'], 'accepted: a number over 0'],
    [['--guided', 'nowhere.json'], 'nowhere.json'],
    [['--port', 'auto', '--manual'], 'cannot be used with'],
  ])('%j is refused before anything moves', async (more, words) => {
    const { code, err } = await calibrate('bad', ...more);
    expect(code).toBe(2);
    expect(err).toContain(words);
    expect(existsSync(join(folder, 'bad', 'chain.jsonl'))).toBe(false);
  });

  test('without a reference there is no calibration', async () => {
    const { code, err } = await runProgram(['calibrate', 'uv', '--by', 'Demo Person'], folder);
    expect(code).toBe(2);
    expect(err).toContain('--reference-name');
  });
});
