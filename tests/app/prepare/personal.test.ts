import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import builtInJob from '../../../src/app/defaults/job.json' with { type: 'json' };
import { loadJournal } from '../../../src/app/prepare/load-journal.ts';
import { loadSettings } from '../../../src/app/prepare/load-settings.ts';
import {
  keepJobPersonal,
  namesIn,
  partsOfNamesIn,
  saltFor,
} from '../../../src/app/prepare/personal.ts';
import { problemLine } from '../../../src/core/settings.ts';
import { readPersonal } from '../../../src/store/chain/personal-file.ts';
import { scratchFolder, writeJson } from '../../cli/process.ts';
import { journalOf, STOPPED } from '../../report/job-story.ts';

const folder = scratchFolder();
const PEOPLE = { vehicle: 'DEMO-471', customer: 'Ottoline Demo', technician: 'Tarquin Demo' };

describe('the people of a job', () => {
  test('stand apart from what goes into the journal', () => {
    const loaded = loadSettings({ job: writeJson(folder, 'a.json', { ...builtInJob, ...PEOPLE }) });
    if (!loaded.ok) throw new Error(JSON.stringify(loaded.problems));
    expect(loaded.value.people).toEqual(PEOPLE);
    for (const name of Object.values(PEOPLE)) {
      expect(JSON.stringify(loaded.value.inputs)).not.toContain(name);
      expect(JSON.stringify(loaded.value.config.job)).not.toContain(name);
    }
  });

  test.each(['reference', 'notes'])('may not be named in the %s, which stays for good', (field) => {
    const job = { ...builtInJob, ...PEOPLE, [field]: 'for ottoline demo' };
    const loaded = loadSettings({ job: writeJson(folder, 'b.json', job) });
    expect(loaded.ok ? [] : loaded.problems.map(problemLine)).toEqual([
      expect.stringMatching(`b.json: ${field} is "for ottoline demo"; accepted: a text without`),
    ]);
  });

  test('are kept with the hash that the journal names', () => {
    const sha256 = keepJobPersonal(folder, PEOPLE, saltFor(null));
    const found = readPersonal(join(folder, 'personal.json'));
    expect(found).toMatchObject({ state: 'there', sha256, personal: { fields: PEOPLE } });
    expect(() => keepJobPersonal(folder, PEOPLE, saltFor(null))).toThrow('EEXIST');
  });

  test('of an older journal, which holds them, are left out when it is read', () => {
    const text = journalOf(STOPPED, { job: { ...PEOPLE, reference: 'demo' } });
    const file = writeJson(folder, 'old.jsonl', text);
    expect(readFileSync(file, 'utf8')).toContain(PEOPLE.customer);
    const read = loadJournal(file);
    expect(read).toMatchObject({ ok: true, value: { intact: true, remarks: [] } });
    expect(read.ok && read.value.header.inputs.job).toEqual({ reference: 'demo' });
  });
});

test('the salt is the same for the same seed, and never twice the same without one', () => {
  expect(saltFor(1)).toBe(saltFor(1));
  expect(saltFor(1)).not.toBe(saltFor(2));
  expect(saltFor(null)).not.toBe(saltFor(null));
});

test('a name is found in a text whatever its capitals, and two letters are no name', () => {
  expect(namesIn('told OTTOLINE DEMO so', PEOPLE)).toEqual(['customer']);
  expect(namesIn('an other', { technician: 'an' })).toEqual([]);
});

test.each([
  ['asked by Ottoline', ['customer']],
  ['asked by OTTOLINE, by telephone', ['customer']],
  ['the demo of Tarquin', ['customer', 'technician']],
  ['the car with demo 4-7-1', ['vehicle', 'customer', 'technician']],
  ['Jose asked for it', ['person']],
  ['José asked for it', ['person']],
  ['asked for by the office', []],
  ['an owner of another car', []],
])('%j names %j, be it in part or without its accents', (text, named) => {
  const fields = { ...PEOPLE, person: 'José Núñez', by: 'the owner' };
  expect(partsOfNamesIn(text, fields)).toEqual(named);
});
