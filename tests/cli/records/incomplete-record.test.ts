import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { loadSettings } from '../../../src/app/prepare/load-settings.ts';
import { runJob } from '../../../src/cli/run/run-job.ts';
import { simulatedSession } from '../../../src/cli/run/simulated-session.ts';
import type { JournalFile } from '../../../src/journal/journal.ts';
import { createJournal } from '../../../src/journal/journal.ts';
import { readPdf, squeezed } from '../../document/pdf-text.ts';
import { headerOf, memoryFile } from '../../report/journal-data.ts';
import { runHere } from '../here.ts';
import { PROGRAM, runProgram, scratchFolder } from '../process.ts';

const folder = scratchFolder();

/**
 * As on a full disk, but for the journal alone: no file may grow over so many blocks of 512 bytes
 * (POSIX `ulimit -f`), and the journal is the only long one.
 */
function runWithRoom(blocks: number, args: string): { code: number | null; told: string } {
  const command = `ulimit -f ${blocks}; exec "${process.execPath}" "${PROGRAM}" run --speed max ${args} 2>&1`;
  const { status, stdout } = spawnSync('sh', ['-c', command], { cwd: folder, encoding: 'utf8' });
  return { code: status, told: stdout };
}

describe.skipIf(process.platform === 'win32')('a job whose journal breaks off', () => {
  let run = { code: null as number | null, told: '' };
  const at = (name: string): string => join(folder, 'full', 'demo-0001', name);
  const read = (name: string): string => readFileSync(at(name), 'utf8');

  beforeAll(async () => {
    // The program bundles itself once, which takes longer files.
    await runProgram(['--help'], folder);
    run = runWithRoom(1200, '--records full --json');
  });

  test('is told at once, in the middle of the job, and ends with 1', () => {
    const { code, told } = run;
    const breaks = told.indexOf('RECORD INCOMPLETE from now on');
    expect(told.indexOf('5.2 vacuum-dwell')).toBeGreaterThan(0);
    expect(breaks).toBeGreaterThan(told.indexOf('5.2 vacuum-dwell'));
    expect(told).toContain(' cure, cycle');
    expect(breaks).toBeLessThan(told.indexOf(' cure, cycle'));
    expect(code).toBe(1);
    expect(told).not.toMatch(/complete without it|Job completed|break clear/);
  });

  test('has a certificate that says so and claims neither cure nor outcome', () => {
    const html = read('certificate.html');
    const { text } = readPdf(readFileSync(at('certificate.pdf')));
    for (const page of [squeezed(html), squeezed(text)]) {
      expect(page).toContain('Therecordisincomplete:theprocessisnotjudged');
      expect(page).toContain('nothingisknownofwhathappenedlater');
      expect(page).not.toMatch(
        /stayedwithinitslimits|:met|Nothingwascured|jobwascompleted|foundthebreakclear/,
      );
    }
    expect(html).toContain('class="verdict bad"');
  });

  test('has a report that says so', () => {
    expect(JSON.parse(read('report.json'))).toMatchObject({
      verdict: { process: 'record incomplete, process not judged', grade: 'bad' },
      dose: { verdict: 'not recorded' },
      outcome: null,
    });
    expect(squeezed(read('report.html'))).toContain('Recordbreaksoff');
  });

  test('stands in the chain as incomplete, with the cause, and is found as such', async () => {
    const [, line = ''] = readFileSync(join(folder, 'full', 'chain.jsonl'), 'utf8').split('\n');
    const { body } = JSON.parse(line);
    expect(body.result).toMatchObject({
      verdict: 'record incomplete, process not judged',
      grade: 'bad',
      outcome: null,
      endReason: 'fault',
    });
    expect(body.result.why).toMatch(
      /could not be written any more at \d+:\d\d min.*EFBIG.*Not on record/,
    );
    const records = (...args: readonly string[]) =>
      runHere(['records', ...args, '--records', 'full'], folder);
    expect((await records('list', '--result', 'bad')).out).toContain('not recorded');
    expect((await records('show', 'demo-0001')).out).toMatch(/outcome +not recorded/);
    expect((await records('verify')).code).toBe(0);
  });

  test('is no better in a report that is written later', async () => {
    const { code, out } = await runHere(['report', 'demo-0001', '--records', 'full'], folder);
    expect([code, out]).toEqual([0, expect.stringContaining('record incomplete')]);
    expect(squeezed(read('certificate.html'))).toContain('Therecordisincomplete');
  });

  test('is told as data with no outcome', () => {
    const { told } = run;
    expect(JSON.parse(told.slice(told.indexOf('\n{') + 1))).toMatchObject({
      reason: 'fault',
      outcome: null,
      recordComplete: false,
      verdict: { grade: 'bad' },
    });
  });

  test('is not begun where there is no room for its head', () => {
    const { code, told } = runWithRoom(1, '--records none');
    expect(code).toBe(2);
    expect(told).toMatch(/none\/demo-0001: .*not writable.*EFBIG.*Nothing was started/s);
    expect(existsSync(join(folder, 'none', 'demo-0001'))).toBe(false);
    expect(readdirSync(join(folder, 'none'))).toEqual([]);
  });
});

test.skipIf(process.platform === 'win32')(
  'a calibration whose journal breaks off is told so, and nothing of it is kept',
  async () => {
    await runProgram(['--help'], folder);
    const what = `calibrate pressure --by "Demo Person" --reference-name "demo gauge" --certificate D-1`;
    const command = `ulimit -f 160; exec "${process.execPath}" "${PROGRAM}" ${what} --reference-uncertainty 0.05 --speed max --records full-care 2>&1`;
    const { status, stdout } = spawnSync('sh', ['-c', command], { cwd: folder, encoding: 'utf8' });
    expect(stdout).toContain('RECORD INCOMPLETE from now on');
    expect(stdout).toContain('Nothing was kept');
    expect(status).toBe(1);
    // That it was begun stays on record.
    const chain = readFileSync(join(folder, 'full-care', 'chain.jsonl'), 'utf8')
      .trim()
      .split('\n');
    expect(chain.map((line) => JSON.parse(line).kind)).toEqual(['begin']);
  },
);

describe('the end of a job', () => {
  async function endWith(file: JournalFile) {
    const settings = loadSettings({});
    if (!settings.ok) throw new Error(JSON.stringify(settings.problems));
    const { config } = settings.value;
    const options = { manual: false, seed: 1, altitude: 60, fault: [], speed: 'max' } as const;
    const opened = simulatedSession(options, config);
    if (!opened.ok) throw new Error(opened.lines.join());
    const said: string[] = [];
    const out = { isTTY: false, write: (words: string) => said.push(words) };
    const failure = { tell: (_: unknown): void => undefined };
    const end = await runJob({
      settings: settings.value,
      session: opened.session,
      record: {
        journal: createJournal({
          path: '',
          header: headerOf(),
          onError: (error) => failure.tell(error),
          open: () => file,
        }),
        onFailure: (tell) => {
          failure.tell = tell;
        },
      },
      surroundings: { title: 'demo', lowestPa: 15_000, highestPa: 270_000, keys: '' },
      out: out as unknown as NodeJS.WriteStream,
      err: out as unknown as NodeJS.WriteStream,
    });
    return { end, said: said.join('') };
  }

  test('is the controller’s where all of it is recorded', async () => {
    const { end, said } = await endWith(memoryFile().file);
    expect(end).toMatchObject({ reason: 'completed', outcome: 'clear', recorded: true });
    expect(said).not.toContain('INCOMPLETE');
  });

  test.each([
    ['its middle', (): JournalFile => memoryFile(400_000).file],
    ['its last line', (): JournalFile => failingAtClose('sync')],
    ['its closing', (): JournalFile => failingAtClose('close')],
  ])('claims nothing where the journal fails in %s', async (_, file) => {
    const { end, said } = await endWith(file());
    expect(end).toMatchObject({ reason: 'fault', outcome: null, recorded: false });
    expect(end.why).toContain('Not on record: the job was completed');
    expect(said).toContain('RECORD INCOMPLETE from now on');
  });

  /** Fails once the end has been written. */
  function failingAtClose(broken: 'sync' | 'close'): JournalFile {
    const { file, text } = memoryFile();
    const unlessEnded = (): void => {
      if (text().includes('{"end"')) throw new Error('EIO');
    };
    return { ...file, [broken]: unlessEnded };
  }
});
