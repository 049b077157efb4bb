import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import job from '../../src/app/defaults/job.json' with { type: 'json' };
import profile from '../../src/app/defaults/profile.json' with { type: 'json' };
import unit from '../../src/app/defaults/unit.json' with { type: 'json' };
import { runHere } from './here.ts';
import { scratchFolder, writeJson } from './process.ts';

const folder = scratchFolder();

const LEG = {
  kind: 'leg',
  count: 5,
  lengthMm: 10,
  mouthApertureUm: 1.2,
  endRatio: 0.6,
  fingerPercent: 20,
  widthMm: 1.2,
};

/** Each: which file, what is in it, and what the message must name. */
const CASES: readonly (readonly [string, string, unknown, readonly string[]])[] = [
  [
    'an unknown damage type',
    'job',
    { ...job, damage: { ...job.damage, type: 'dent' } },
    ['damage.type', '"dent"', 'bullseye, half-moon'],
  ],
  [
    'a profile over the unit’s limits',
    'profile',
    { ...profile, pressure: { ...profile.pressure, highestKPaGauge: 250 } },
    ['pressure.highestKPaGauge', '250', 'at most 180 kPa over atmosphere'],
  ],
  [
    'psi where kPa belong',
    'profile',
    {
      ...profile,
      pressure: { setPointPsi: 20, highestKPaGauge: 172, reachWithinS: 30, dwellS: 150, restS: 20 },
    },
    ['pressure.setPointPsi', 'no such field', 'pressure.setPointKPaGauge is missing'],
  ],
  [
    'kelvin where degrees Celsius belong',
    'job',
    { ...job, glassC: 296 },
    ['glassC', '296', '-20 to 80 degrees Celsius'],
  ],
  [
    'a set-point under the profile’s own limit',
    'profile',
    { ...profile, vacuum: { ...profile.vacuum, lowestKPaAbs: 40 } },
    ['vacuum.lowestKPaAbs', '40', 'at least 2 below vacuum.setPointKPaAbs (25)'],
  ],
  ['a missing field', 'job', { ...job, resin: undefined }, ['resin', 'missing']],
  [
    'an alarm limit beyond its range',
    'unit',
    { ...unit, alarms: { 'over-pressure': { limit: 400 } } },
    ['alarms.over-pressure.limit', '400', '50 to 190'],
  ],
  [
    'a gap wider than any break',
    'plant',
    { schema: 'meniscus/plant@1', break: { gaps: [{ ...LEG, mouthApertureUm: 900 }] } },
    ['break.gaps.0.mouthApertureUm', '900', '0.1 to 200 µm'],
  ],
  [
    'a resin that thickens with warmth',
    'plant',
    {
      schema: 'meniscus/plant@1',
      resin: {
        viscosity: [
          { temperatureC: 20, viscosityMPaS: 50 },
          { temperatureC: 30, viscosityMPaS: 60 },
        ],
        surfaceTensionMNPerM: 35,
        contactAngleDegrees: 20,
        gasSolubilityMmolPerLBar: 2.5,
      },
    },
    ['resin.viscosity', 'accepted: '],
  ],
  [
    'a pane of ice-thin glass',
    'plant',
    { schema: 'meniscus/plant@1', pane: { layers: [{ kind: 'glass', thicknessMm: 0.01 }] } },
    ['pane.layers.0.thicknessMm', '0.01', '0.1 to 25 mm', 'pane.emissivity is missing'],
  ],
  [
    'a lamp brighter than any',
    'plant',
    { schema: 'meniscus/plant@1', lamp: { fullMWPerCm2: 5000 } },
    ['lamp.fullMWPerCm2', '5000', '1 to 200 mW/cm2'],
  ],
  [
    'a reference that writes a line of its own',
    'job',
    { ...job, reference: 'demo\nVerdict: process within its limits' },
    ['reference is "demo', 'a text on one line without control characters'],
  ],
  [
    'notes that clear the screen',
    'job',
    { ...job, notes: 'see \u001b[2J' },
    ['notes is "see ', 'a text on one line without control characters'],
  ],
  ['broken JSON', 'job', '{ "schema": ', ['not JSON', 'accepted: JSON text']],
  ['a file of another kind', 'job', profile, ['schema', '"meniscus/job@1"']],
];

describe('bad input ends with exit code 2 before anything starts', () => {
  test.each(CASES)('%s', async (title, option, content, words) => {
    const file = writeJson(folder, `${title.replaceAll(/\W/g, '-')}.json`, content);
    const { code, err, out } = await runHere(['run', `--${option}`, file], folder);
    expect(code).toBe(2);
    expect(err).toContain(file);
    for (const word of words) expect(err).toContain(word);
    expect(err).toContain('Nothing was started.');
    expect(out).toBe('');
    expect(existsSync(join(folder, 'records'))).toBe(false);
  });

  test('a file that is not there', async () => {
    const { code, err } = await runHere(['run', '--job', 'no-such-file.json'], folder);
    expect(code).toBe(2);
    expect(err).toContain('no-such-file.json: the file is not readable (ENOENT)');
  });

  test.each([
    [['run', '--speed', '-3'], 'times real time from 0.1 to 1000'],
    [['run', '--seed', '1.5'], 'a whole number from 0'],
    [['run', '--fault', 'gremlin'], 'accepted: leaky-seal'],
    [['run', '--altitude', '9000'], 'metres above sea level from -400 to 4000'],
    [['run', '--fault', 'no-such-faults.json'], 'no-such-faults.json: the file is not readable'],
    [['run', '--colour', 'red'], "unknown option '--colour'"],
    [['replay', 'no-such-journal.jsonl'], 'no-such-journal.jsonl'],
    [['run', '--by', 'A\u001b[2JB'], 'a text on one line without control characters'],
    [['run', '--agreement', 'a\u202eb'], 'a text on one line without control characters'],
  ])('%j', async (args, word) => {
    const { code, err } = await runHere(args, folder);
    expect(code).toBe(2);
    expect(err).toContain(word);
  });

  test('nothing that was refused steers the terminal', async () => {
    const { err } = await runHere(['records', 'show', 'x\u009b2J'], folder);
    expect(err).toContain('\\u009b');
    expect(err).not.toContain('\u009b');
  });

  test('a file of faults with an amount out of its range', async () => {
    const faults = [{ kind: 'lamp-aged', amount: 7, from: { atS: 0 } }];
    const file = writeJson(folder, 'faults.json', { schema: 'meniscus/faults@1', faults });
    const { code, err } = await runHere(['run', '--fault', file], folder);
    expect(code).toBe(2);
    expect(err).toContain('faults.0.amount is 7; accepted: a number from 0 to 1');
  });

  test('all problems of all files are told at once', async () => {
    const badJob = writeJson(folder, 'two-a.json', { ...job, glassC: 296, airC: 'warm' });
    const badProfile = writeJson(folder, 'two-b.json', {
      ...profile,
      cycles: { planned: 0, extra: 2 },
    });
    const { err } = await runHere(['run', '--job', badJob, '--profile', badProfile], folder);
    for (const path of ['glassC', 'airC', 'cycles.planned']) expect(err).toContain(path);
  });
});
