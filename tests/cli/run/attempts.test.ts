/** A job in more than one attempt, from the command line: stopped, gone on with, cured, closed. */
import { cpSync, readFileSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import builtInJob from '../../../src/app/defaults/job.json' with { type: 'json' };
import profile from '../../../src/app/defaults/profile.json' with { type: 'json' };
import { runHere } from '../here.ts';
import { type Ended, scratchFolder, writeJson } from '../process.ts';

const folder = scratchFolder();
const quick = writeJson(folder, 'quick.json', {
  ...profile,
  sealCheck: { ...profile.sealCheck, watchS: 15 },
  vacuum: { ...profile.vacuum, dwellS: 25, longestDwellS: 25 },
  pressure: { ...profile.pressure, dwellS: 35, restS: 1 },
  cycles: { planned: 1, extra: 0 },
  cure: { ...profile.cure, targetAtResinMJPerCm2: 1500, leastS: 60 },
});
const job = writeJson(folder, 'job.json', {
  ...builtInJob,
  vehicle: 'DEMO-471',
  damage: { ...builtInJob.damage, depthMm: 0.5 },
});
const stop = (phase: string, afterS: number): string =>
  writeJson(folder, `stop-${phase}.json`, {
    schema: 'meniscus/faults@1',
    faults: [{ kind: 'emergency-stop', from: { phase, afterS } }],
  });
const NEW = ['run', '--speed', 'max', '--job', job, '--profile', quick];
const on = (records: string, ...more: readonly string[]): Promise<Ended> =>
  runHere(['run', '--speed', 'max', '--records', records, ...more], folder);
const here = (...words: readonly string[]): Promise<Ended> => runHere(words, folder);

beforeAll(async () => {
  await here(...NEW, '--records', 'cure', '--fault', stop('cure', 40));
  await here(...NEW, '--records', 'press', '--fault', stop('pressure-dwell', 5));
  for (const copy of ['only', 'cut', 'closed']) {
    cpSync(join(folder, 'press'), join(folder, copy), { recursive: true });
  }
});

describe('a job stopped in its cure', () => {
  let told: Ended;
  let again: Ended;
  beforeAll(async () => {
    told = await here('jobs', 'list', '--records', 'cure');
    again = await on('cure', '--resume', 'demo-0001', '--hours-later', '14');
  });

  test('is listed as unfinished, with its dose and what can be done', () => {
    expect(told.out).toContain('demo-0001  1 attempt, ended by an alarm, 0.80 of 1.84 J/cm2');
    expect(told.out).toContain('meniscus run --resume JOB');
  });

  test('goes on at the film, not in the light, and cures from nothing', () => {
    expect(again.err).toContain('demo-0001, attempt 2: it goes on at 6.3 cover film');
    const phases = [...again.out.matchAll(/^\d\d:\d\d {2}\d\.\d (\S+), cycle 1$/gm)].map(
      ([, phase]) => phase,
    );
    expect(phases.slice(0, 6)).toEqual([
      'self-test',
      'job-sheet',
      'protect',
      'cover-film',
      'place-lamp',
      'cure',
    ]);
    expect(again.out).toMatch(/dose shown to be at least/);
  });

  test('says what lay between, what was not counted, and is not good', () => {
    expect(again.out).toContain('14 h 0 min to this one');
    expect(again.out).toContain('resin stood in the break, not fully cured, between two attempts');
    expect(again.out).not.toContain('Verdict: process within its limits\n');
    const report = readFileSync(join(folder, 'cure', 'demo-0001', 'attempt-2', 'report.json'));
    const { claims } = JSON.parse(String(report));
    const dose = claims.find(({ id }: { id: string }) => id === 'dose');
    expect(JSON.stringify(dose.support)).toMatch(/attempt 1 gave \d\.\d\d.*not counted/);
  });

  test('lies with its first attempt in one folder, linked by the journal’s hash', async () => {
    const chain = readFileSync(join(folder, 'cure', 'chain.jsonl'), 'utf8')
      .trim()
      .split('\n');
    const [first, second] = chain
      .map((line) => JSON.parse(line))
      .filter(({ kind }) => kind === 'repair');
    expect([first.id, second.id]).toEqual(['demo-0001', 'demo-0001/attempt-2']);
    expect(second.body.attempt).toEqual({
      job: 'demo-0001',
      number: 2,
      how: 'go-on',
      after: { record: 'demo-0001', journalSha256: first.body.journal.sha256 },
    });
    expect((await here('records', '--records', 'cure', 'verify')).code).toBe(0);
  });

  test('is one job to whoever looks it up', async () => {
    const list = await here('records', '--records', 'cure', 'list');
    expect(list.out).toContain('~demo-0001/attempt-2');
    const show = await here('records', '--records', 'cure', 'show', 'demo-0001');
    expect(show.out).toContain('demo-0001/attempt-2');
    expect((await here('jobs', 'list', '--records', 'cure')).out).toBe(
      'No job waits.\nNo job is unfinished.\n',
    );
    const replayed = await here('replay', join('cure', 'demo-0001', 'attempt-2', 'journal.jsonl'));
    expect(replayed.out).toContain('every decision is the same');
    const report = await here(
      'report',
      'demo-0001/attempt-2',
      '--records',
      'cure',
      '--format',
      'html',
    );
    expect(report.code).toBe(0);
  });

  test('loses the names of all attempts at once, where they are removed', async () => {
    cpSync(join(folder, 'cure'), join(folder, 'gone'), { recursive: true });
    const why = ['--reason', 'asked', '--by', 'office'];
    const gone = await here('records', '--records', 'gone', 'remove-personal', 'demo-0001', ...why);
    expect(gone.out).toContain('demo-0001: personal data removed');
    expect(gone.out).toContain('demo-0001/attempt-2: personal data removed');
    expect((await here('records', '--records', 'gone', 'verify')).code).toBe(0);
  });
});

describe('a job stopped under pressure', () => {
  test('goes on with its vacuum, never straight into pressure', async () => {
    const { out, err } = await on('press', '--resume', 'demo-0001');
    expect(err).toContain('set bridge');
    const phases = [...out.matchAll(/^\d\d:\d\d {2}\d\.\d ([a-z-]+)/gm)].map(([, id]) => id);
    expect(phases.slice(0, 4)).toEqual(['self-test', 'job-sheet', 'protect', 'set-bridge']);
    const at = (phase: string): number => phases.indexOf(phase);
    expect(at('evacuate')).toBeGreaterThan(at('seal-watch'));
    expect(at('pressurise')).toBeGreaterThan(at('evacuate'));
    // The cycle that was begun is begun again under its own number.
    expect(out).toMatch(/pressure-dwell, cycle 1$/m);
    expect(out).not.toMatch(/cycle 2$/m);
  });

  test('can have its resin cured, and nothing else', async () => {
    const { out, err } = await on('only', '--cure-only', 'demo-0001');
    expect(err).toContain('to cure only');
    expect(out).not.toMatch(/\d\.\d evacuate/);
    expect(out).toMatch(/\d\.\d cure, cycle 1/);
    expect(out).toContain('a mark remains in the break');
  });

  test('can be closed with a reason, which the record keeps', async () => {
    const why = ['--reason', 'the pane is replaced', '--by', 'office'];
    const closed = await here('jobs', '--records', 'closed', 'close', 'demo-0001', ...why);
    expect([closed.code, closed.out]).toEqual([0, expect.stringContaining('demo-0001: closed')]);
    const shown = await here('records', '--records', 'closed', 'show', 'demo-0001');
    expect(shown.out).toContain('Closed: the pane is replaced');
    const again = await on('closed', '--resume', 'demo-0001');
    expect([again.code, again.err]).toEqual([
      2,
      expect.stringContaining('"demo-0001" is no unfinished job; accepted: none'),
    ]);
  });

  test('may not name people in that reason', async () => {
    const why = ['--reason', 'owner of DEMO-471 left', '--by', 'office'];
    const refused = await here('jobs', '--records', 'press', 'close', 'demo-0001', ...why);
    expect(refused.code).toBe(2);
  });
});

describe('a job whose program was killed', () => {
  const journal = join(folder, 'cut', 'demo-0001', 'journal.jsonl');
  beforeAll(() => {
    for (const name of ['chain.jsonl', 'meniscus.db', 'meniscus.db-wal', 'meniscus.db-shm']) {
      rmSync(join(folder, 'cut', name), { force: true });
    }
    const lines = readFileSync(journal, 'utf8').split('\n');
    writeFileSync(journal, lines.slice(0, -30).join('\n').slice(0, -20));
  });

  test('is not gone on with while its journal is written to', async () => {
    const { code, err } = await on('cut', '--resume', 'demo-0001');
    expect([code, err]).toEqual([2, expect.stringContaining('its job may still be running')]);
  });

  test('is offered before the next job, entered, and gone on with', async () => {
    utimesSync(journal, 1, 1);
    const listed = await here('jobs', 'list', '--records', 'cut');
    expect(listed.out).toContain('cut off before its end, or still running');
    const { err, out } = await on('cut', '--resume', 'demo-0001');
    expect(err).toContain('set bridge');
    expect(out).toContain('the record breaks off');
    expect((await here('records', '--records', 'cut', 'verify')).code).toBe(0);
  });
});

test('a new job is told of one that is not finished', async () => {
  cpSync(join(folder, 'closed'), join(folder, 'told'), { recursive: true });
  await here(...NEW, '--records', 'told', '--fault', stop('cure', 5));
  const { err } = await here(...NEW, '--records', 'told', '--fault', stop('cure', 5));
  expect(err).toContain('demo-0001.2 is unfinished');
  expect(err).not.toContain('demo-0001 is unfinished');
});
