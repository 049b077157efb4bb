/**
 * The program on the emulated board: the real firmware image and the real host driver, under a whole
 * repair with a short profile, a calibration, and a repair that is ended from outside.
 */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import builtInProfile from '../../../src/app/defaults/profile.json' with { type: 'json' };
import { SAFE } from '../../../src/core/frame.ts';
import { type JournalContents, readJournal } from '../../../src/journal/read-journal.ts';
import type { ReportData } from '../../../src/report/report-data.ts';
import { type Ended, runProgram, scratchFolder, writeJson } from '../process.ts';

const folder = scratchFolder();
const LONGEST_MS = 600_000;
const IMAGE = new URL('../../../hal/firmware/image/meniscus.hex', import.meta.url);

/** Every step of a repair, with short waits. */
const SHORT = {
  ...builtInProfile,
  name: 'short demo for the emulated board',
  sealCheck: { ...builtInProfile.sealCheck, watchS: 20 },
  cycles: { planned: 1, extra: 1 },
  vacuum: { ...builtInProfile.vacuum, dwellS: 10, longestDwellS: 20 },
  pressure: { ...builtInProfile.pressure, dwellS: 20, restS: 5 },
  cure: { ...builtInProfile.cure, targetAtResinMJPerCm2: 1000, leastS: 20 },
};
/** One cycle fills it. */
const WIDE = {
  schema: 'meniscus/plant@1',
  break: {
    gaps: [
      {
        ...{ kind: 'leg', count: 3, lengthMm: 2, endRatio: 0.5, fingerPercent: 40 },
        ...{ widthMm: 1.5, mouthApertureUm: 5 },
      },
    ],
  },
};
const REFERENCE = ['--reference-name', 'demo gauge', '--certificate', 'D-1'];
const SPEED = /\d\.\d min of board time in \d+\.\d s \(\d+(\.\d)? x real time\)/;

let repair: Ended;
let simulated: Ended;
let calibration: Ended;
let stopped: Ended;

beforeAll(async () => {
  const profile = writeJson(folder, 'profile.json', SHORT);
  const plant = writeJson(folder, 'plant.json', WIDE);
  const run = ['run', '--board', 'emulated', '--profile', profile, '--plant', plant];
  const calibrate = ['calibrate', 'pressure', '--board', 'emulated', '--by', 'Demo Person'];
  let told = false;
  // The program is bundled once, not by three at a time.
  await runProgram(['--help'], folder);
  [repair, simulated, calibration, stopped] = await Promise.all([
    runProgram([...run, '--records', 'repair'], folder),
    runProgram(
      ['run', '--speed', 'max', '--profile', profile, '--plant', plant, '--records', 'simulated'],
      folder,
    ),
    runProgram(
      [...calibrate, ...REFERENCE, '--reference-uncertainty', '0.05', '--records', 'care'],
      folder,
    ),
    runProgram([...run, '--records', 'stopped'], folder, (out, kill) => {
      if (told || !out.includes('5.2 vacuum-dwell')) return;
      told = true;
      kill('SIGINT');
    }),
  ]);
}, LONGEST_MS);

const journalIn = (...path: readonly string[]): string => join(folder, ...path, 'journal.jsonl');

function contentsOf(path: string): JournalContents {
  const read = readJournal(readFileSync(path, 'utf8'), path);
  if (!read.ok) throw new Error(JSON.stringify(read));
  return read.value;
}

/** What the head says of the board, beside its limits. */
const EMULATED = {
  kind: 'emulated board',
  serial: 'emu-1',
  firmware: 'meniscus 4.0',
  leaseS: 0.5,
};

const reportIn = (records: string): ReportData =>
  JSON.parse(readFileSync(join(folder, records, 'demo-0001', 'report.json'), 'utf8'));

/** What a record claims, without the figures. */
const claimedIn = ({ claims, verdict, outcome }: ReportData) => ({
  verdict,
  outcome,
  claims: claims.map(({ id, portion, state, support, objections }) => ({
    ...{ id, portion, state },
    by: support.map(({ by }) => by),
    against: objections.map((one) => one.id),
  })),
});

const litWPerM2 = ({ dose }: ReportData): number => dose.doseJPerM2 / (dose.lampOnS ?? 0);

describe('a whole repair on the emulated board', () => {
  test('claims what the same repair on the simulated board claims, each by the same witnesses', () => {
    expect(simulated).toMatchObject({ code: 0, err: '' });
    const [emulated, other] = [reportIn('repair'), reportIn('simulated')];
    expect(claimedIn(emulated)).toEqual(claimedIn(other));
    expect(emulated.claims.map(({ state }) => state)).toEqual(Array(17).fill('shown'));
  });

  test('interrupts its lamp and sees it go dark each time, and counts the same light a second', () => {
    const [emulated, other] = [reportIn('repair'), reportIn('simulated')];
    for (const { measured } of [emulated, other]) {
      const gaps = (name: string) => measured.findLast((row) => row.name === name)?.value;
      expect(gaps('gapsPassed')).toBeGreaterThanOrEqual(3);
      expect(gaps('gapsFailed')).toBe(0);
    }
    // A tick of 0.05 s at each end of four pieces, of 65 s of light in all.
    expect(Math.abs(litWPerM2(emulated) / litWPerM2(other) - 1)).toBeLessThan(0.4 / 65);
  });

  test('ends well without a word on stderr, and says how fast the board ran', () => {
    expect(repair).toMatchObject({ code: 0, err: '' });
    expect(repair.out).toContain('Job completed, break clear');
    expect(repair.out).toContain('Verdict: process within its limits');
    expect(repair.out).toMatch(SPEED);
  });

  test('raised no alarm, and no frame was lost or spoilt', () => {
    const { events, ticks } = contentsOf(journalIn('repair', 'demo-0001'));
    expect(events.filter(({ kind }) => kind === 'alarm')).toEqual([]);
    expect(ticks.every(({ frame }) => frame.link === 'up' && !frame.damaged && !frame.gap)).toBe(
      true,
    );
  });

  test('says in journal, report and certificate that the board was emulated, and with which image', () => {
    const { header } = contentsOf(journalIn('repair', 'demo-0001'));
    const sha256 = createHash('sha256').update(readFileSync(IMAGE)).digest('hex');
    expect(header.board).toMatchObject(EMULATED);
    expect(header.inputs.extra).toMatchObject({ firmwareImageSha256: sha256 });
    const page = (name: string): string =>
      readFileSync(join(folder, 'repair', 'demo-0001', name), 'utf8');
    expect(JSON.parse(page('report.json'))).toMatchObject({ board: EMULATED, simulated: true });
    for (const name of ['report.html', 'certificate.html']) {
      expect(page(name)).toContain('this record was made on an emulated board');
    }
  });

  test('replays to the same decisions', async () => {
    const { code, out } = await runProgram(['replay', journalIn('repair', 'demo-0001')], folder);
    expect(out).toContain('every decision is the same');
    expect(code).toBe(0);
  });
});

test('pressure is calibrated by the display and the buttons of the emulated board', () => {
  expect(calibration).toMatchObject({ code: 0, err: '' });
  expect(calibration.out).toContain('Pressure calibration: passed');
  expect(calibration.out).toMatch(SPEED);
  const [name = ''] = readdirSync(join(folder, 'care', 'care'));
  const { header, events } = contentsOf(journalIn('care', 'care', name));
  expect(header).toMatchObject({ board: EMULATED, procedure: 'pressure' });
  expect(events.filter(({ kind }) => kind === 'alarm')).toEqual([]);
  // Entered before its first step, and again with what it came to.
  const lines = readFileSync(join(folder, 'care', 'chain.jsonl'), 'utf8')
    .trim()
    .split('\n');
  expect(lines).toHaveLength(2);
  expect(JSON.parse(lines[1] ?? '').body).toMatchObject({ what: 'calibration', simulated: true });
});

test('a repair that is ended from outside makes the emulated board safe and closes its record', () => {
  expect(stopped.code).toBe(130);
  expect(stopped.out).toContain('Ended by SIGINT');
  expect(stopped.out).toContain('Report: ');
  const { ticks, end } = contentsOf(journalIn('stopped', 'demo-0001'));
  expect(ticks.some(({ actuators }) => actuators.pumpRatio > 0)).toBe(true);
  expect(ticks.at(-1)?.actuators).toEqual(SAFE);
  expect(end.reason).toBe('interrupted');
});

test.each([
  [['run', '--board', 'emulated', '--port', 'auto'], "cannot be used with option '--board"],
  [['run', '--board', 'imaginary'], 'simulated, emulated'],
  [['run', '--board', 'emulated', '--fault', 'slow-board-clock'], 'hose-off'],
  [['care', 'test', '--by', 'X', '--board', 'emulated', '--port', 'auto'], 'cannot be used with'],
  [['bench'], '--board simulated|emulated'],
  [['bench', '--stock', '--board', 'emulated'], '--stock needs --port'],
])('%j is refused with exit code 2 and what is accepted', async (args, words) => {
  const { code, err } = await runProgram(args, scratchFolder());
  expect(err).toContain(words);
  expect(code).toBe(2);
});
