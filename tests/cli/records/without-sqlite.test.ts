import { existsSync, readdirSync, readFileSync, renameSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, test } from 'vitest';
import builtInJob from '../../../src/app/defaults/job.json' with { type: 'json' };
import { abortsOn } from '../../../src/store/index/sqlite.ts';
import { readPdf, squeezed } from '../../document/pdf-text.ts';
import { runHere } from '../here.ts';
import { runProgram, scratchFolder, writeJson } from '../process.ts';

const PRELOADED = fileURLToPath(new URL('no-sqlite.cjs', import.meta.url));
const NO_SQLITE = {
  NODE_OPTIONS: `--require ${PRELOADED}`,
  MENISCUS_SQLITE_ERROR: 'ERR_DLOPEN_FAILED',
};
const folder = scratchFolder();
const NAMES = { technician: 'Tarquin Demo', vehicle: 'DEMO-471', customer: 'Ottoline Demo' };
const at = (...path: readonly string[]): string => join(folder, 'records', ...path);
const without = (...args: readonly string[]) => runProgram(args, folder, undefined, NO_SQLITE);
const withIt = (...args: readonly string[]) => runHere(args, folder);

const WHY = abortsOn(process.versions.node)
  ? 'may end the program on Node 24'
  : 'is compiled for another version of Node';
const SAID = `the SQLite module ${WHY}: there is no index`;
const timesSaid = (text: string): number => text.split(SAID).length - 1;

// In order: each test goes on from what the one before left.
describe('without the SQLite module', () => {
  beforeAll(() => {
    writeJson(folder, 'job.json', { ...builtInJob, ...NAMES });
  });

  test('a run is recorded in the chain, and its certificate shows the place', async () => {
    const { code, out, err } = await without(
      ...['run', '--speed', 'max', '--job', 'job.json', '--fault', 'emergency-stop'],
    );
    expect(code).toBe(4);
    expect([timesSaid(err), timesSaid(out)]).toEqual([1, 0]);
    expect(out).toContain('Record: demo-0001, entry 2 of records');
    const [, line = ''] = readFileSync(at('chain.jsonl'), 'utf8').split('\n');
    const { hash } = JSON.parse(line);
    const { text } = readPdf(readFileSync(at('demo-0001', 'certificate.pdf')));
    expect(squeezed(text)).toContain(`meniscus:record:demo-0001:${hash}`);
    expect(readdirSync(at())).toEqual(['chain.jsonl', 'demo-0001']);
  });

  test('care and calibrations are kept and read', async () => {
    const logged = await without('care', 'log', 'o-ring', '--by', 'Petra Demo');
    expect([logged.code, timesSaid(logged.err)]).toEqual([0, 1]);
    const calibrated = await without(
      ...['calibrate', 'pressure', '--speed', 'max', '--by', 'Petra Demo'],
      ...[
        '--reference-name',
        'demo gauge',
        '--certificate',
        'demo-1',
        '--reference-uncertainty',
        '0.05',
      ],
    );
    expect(timesSaid(calibrated.err)).toBe(1);
    expect(calibrated.err + calibrated.out).toContain('Kept as entry 6 of records');
    const history = await without('care', 'history');
    expect([history.code, timesSaid(history.err)]).toEqual([0, 1]);
    expect(history.out).toContain('o-ring');
  });

  test.each([
    [['list'], 'demo-0001'],
    [['list', '--vehicle', 'demo-471', '--json'], '"id": "demo-0001"'],
    [['show', 'demo-0001'], NAMES.customer],
    [['export', '--with-personal'], NAMES.technician],
    [['retain', '--older-than', '36500'], 'No personal data are older'],
  ])('records %j works, says why once, and ends with 0', async (args, words) => {
    const { code, out, err } = await without('records', ...args);
    expect(out).toContain(words);
    expect([code, timesSaid(err)]).toEqual([0, 1]);
  });

  test('a record takes an amendment, and the chain is verified', async () => {
    const amended = await without(
      ...['records', 'amend', 'demo-0001', '--text', 'a leg grew', '--by', 'quality'],
    );
    expect([amended.code, amended.out]).toEqual([0, expect.stringContaining('added as entry 7')]);
    const { code, out } = await without('records', 'verify');
    expect(code).toBe(0);
    expect(out).toContain('every link holds. 7 entries, 2 journals, 1 of them decided again, ');
    expect(out).toContain('meniscus.db was not compared');
  });

  test('what was written is read by a program that has the module, which makes the index', async () => {
    const listed = await withIt('records', 'rebuild');
    expect([listed.code, timesSaid(listed.err)]).toEqual([0, 0]);
    expect(await withIt('records', 'list', '--vehicle', 'demo-471')).toMatchObject({
      code: 0,
      err: '',
    });
    expect(existsSync(at('meniscus.db'))).toBe(true);
  });

  test('people are removed for good, also from an index that cannot be opened', async () => {
    expect(readFileSync(at('meniscus.db')).includes(NAMES.customer)).toBe(true);
    const { code, out } = await without(
      ...['records', 'remove-personal', 'demo-0001', '--reason', 'asked for', '--by', 'office'],
    );
    expect(out).toContain('meniscus.db held the data too and was deleted');
    expect(code).toBe(0);
    for (const name of readdirSync(at(), { recursive: true, encoding: 'utf8' })) {
      if (!/\.(db|jsonl|json|html)/.test(name)) continue;
      expect(readFileSync(at(name)).includes(NAMES.customer), name).toBe(false);
    }
    expect((await withIt('records', 'verify')).code).toBe(0);
  });

  test('an index that a broken chain may need is not deleted', async () => {
    await withIt('records', 'rebuild');
    renameSync(at('chain.jsonl'), at('chain.jsonl.whole'));
    const whole = readFileSync(at('chain.jsonl.whole'), 'utf8');
    writeJson(folder, join('records', 'chain.jsonl'), whole.replace('"seq":4', '"seq":9'));
    const { code, err } = await without(
      ...['records', 'remove-personal', 'demo-0001', '--reason', 'again', '--by', 'office'],
    );
    expect([code, err]).toEqual([1, expect.stringContaining('records verify')]);
    expect(existsSync(at('meniscus.db'))).toBe(true);
  });
});
