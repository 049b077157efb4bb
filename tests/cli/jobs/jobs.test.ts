/** The list of the day's jobs: added, run in order, offered on the display of the unit. */
import { mkdirSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import intake from '../../../src/app/defaults/intake.json' with { type: 'json' };
import builtInJob from '../../../src/app/defaults/job.json' with { type: 'json' };
import profile from '../../../src/app/defaults/profile.json' with { type: 'json' };
import resin from '../../../src/app/defaults/resin.json' with { type: 'json' };
import { runHere } from '../here.ts';
import { type Ended, scratchFolder, writeJson } from '../process.ts';

const folder = scratchFolder();
const bottle = writeJson(folder, 'bottle.json', resin);
/** One short cycle and a little light: the list does not care how well it goes. */
const QUICK = {
  ...profile,
  sealCheck: { ...profile.sealCheck, watchS: 15 },
  vacuum: { ...profile.vacuum, dwellS: 25, longestDwellS: 25 },
  pressure: { ...profile.pressure, dwellS: 35, restS: 1 },
  cycles: { planned: 1, extra: 0 },
  cure: { ...profile.cure, targetAtResinMJPerCm2: 1200, leastS: 30 },
};
const damage = { depthMm: 0.5 };
/** Ends within seconds of board time: the list does not care how. */
const brief = writeJson(folder, 'brief.json', {
  schema: 'meniscus/faults@1',
  faults: [{ kind: 'emergency-stop', from: { phase: 'protect', afterS: 0 } }],
});

function planned(reference: string, vehicle: string, intakeOf = reference) {
  const name = `planned-${reference}`;
  mkdirSync(join(folder, name), { recursive: true });
  writeJson(join(folder, name), 'job.json', {
    ...builtInJob,
    reference,
    vehicle,
    damage: { ...builtInJob.damage, ...damage },
  });
  writeJson(join(folder, name), 'profile.json', QUICK);
  const sheet = { ...intake, reference: intakeOf, damage: { ...intake.damage, ...damage } };
  writeJson(join(folder, name), 'intake.json', sheet);
  return name;
}
const jobs = (...words: readonly string[]): Promise<Ended> => runHere(['jobs', ...words], folder);
const add = (name: string): Promise<Ended> => jobs('add', name, '--resin', bottle);

beforeAll(async () => {
  await add(planned('first', 'DEMO-1'));
  await add(planned('second', 'DEMO-2'));
});

describe('the list of jobs', () => {
  test('keeps the order in which they were added, with plate and reference', async () => {
    const { out } = await jobs('list');
    expect(out.split('\n').slice(0, 2)).toEqual(['1  first  DEMO-1', '2  second  DEMO-2']);
  });

  test('keeps copies that only this account may read', () => {
    const place = join(folder, 'jobs', '001-first');
    expect(readdirSync(place).toSorted()).toEqual([
      'intake.json',
      'job.json',
      'profile.json',
      'resin.json',
    ]);
    if (process.platform === 'win32') return;
    for (const name of readdirSync(place)) {
      expect(statSync(join(place, name)).mode & 0o777).toBe(0o600);
    }
  });

  test('takes no job twice, and none with the intake of another', async () => {
    const twice = await add('planned-first');
    expect([twice.code, twice.err]).toEqual([2, expect.stringContaining('is in the list')]);
    const other = await add(planned('third', 'DEMO-3', 'fourth'));
    expect([other.code, other.err]).toEqual([
      2,
      expect.stringContaining('reference is "third"; accepted: "fourth"'),
    ]);
    const none = await add('nowhere');
    expect([none.code, none.err]).toEqual([2, expect.stringContaining('not readable')]);
    expect((await jobs('list')).out).not.toContain('third');
  });
});

describe('the next job', () => {
  let ran: Ended;
  beforeAll(async () => {
    ran = await jobs('next', '--speed', 'max', '--fault', brief);
  });

  test('is the first that waits, and its record has its name', async () => {
    expect(ran.out).toContain('Record: first, entry 2');
    const { out } = await jobs('list');
    expect(out).toContain('2  second  DEMO-2');
    expect(out).not.toContain('1  first  DEMO-1');
    expect(out).toContain('first  1 attempt, ended by an alarm');
  });

  test('is offered on the display after those that are not finished, until none is left', async () => {
    const { out, code } = await jobs('next', '--wait', '--speed', 'max');
    const screens = [
      ...out.matchAll(/\| (Choose \d\/\d) +\|\n {2}\| (.{20}) \|\n {2}\| (.{20}) \|/g),
    ].map(([, place, name, what]) => [place, name?.trim(), what?.trim()]);
    expect(screens).toEqual([
      ['Choose 1/5', 'DEMO-1', 'Go on with it'],
      ['Choose 1/1', 'DEMO-2', 'Begin this job'],
    ]);
    expect(out).toContain('Record: first/attempt-2, entry 5');
    expect(out).toContain('Record: second, entry 8');
    expect(code).toBe(0);
    expect((await jobs('list')).out).toBe('No job waits.\nNo job is unfinished.\n');
  });
});
