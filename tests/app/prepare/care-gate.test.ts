import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { careForRun } from '../../../src/app/prepare/care-for-run.ts';
import { careGate } from '../../../src/app/prepare/care-gate.ts';
import { collectOverride } from '../../../src/app/prepare/overrides.ts';
import type { CareBody } from '../../../src/care/care-entry.ts';
import { CARE_ITEM_NAMES, CARE_ITEMS, type DueItem } from '../../../src/care/due-item.ts';
import { DUE_STATES, type DueState } from '../../../src/care/interval.ts';
import { keepCare } from '../../../src/cli/care/care-log.ts';
import { DEFAULT_SETTINGS } from '../../configs.ts';

const item = (name: DueItem['item'], state: DueState): DueItem => ({
  item: name,
  state,
  words: 'test words',
  since: null,
  due: null,
  whatToDo: 'do it',
});
const nothing = { overrides: [], by: null };

describe('the gate', () => {
  test('lets a unit in order through in silence, and tells what is due', () => {
    const all = (state: DueState) => CARE_ITEM_NAMES.map((name) => item(name, state));
    expect(careGate(all('in-order'), nothing)).toEqual({ ok: true, warnings: [], overrides: [] });
    for (const state of ['due-soon', 'overdue-warn'] as const) {
      const gate = careGate(all(state), nothing);
      expect(gate.ok && gate.warnings).toHaveLength(CARE_ITEM_NAMES.length);
    }
  });

  test.each(CARE_ITEM_NAMES)('refuses when %s blocks', (name) => {
    for (const state of DUE_STATES) {
      expect(careGate([item(name, state)], nothing).ok).toBe(state !== 'blocked');
    }
  });

  test.each(CARE_ITEM_NAMES)('%s is overridden only where it may be', (name) => {
    const overrides = [{ item: name, reason: 'the spare is on its way' }];
    const gate = careGate([item(name, 'blocked')], { overrides, by: 'Demo Person' });
    expect(gate.ok).toBe(CARE_ITEMS[name].mayOverride);
    if (gate.ok) {
      const against = [expect.stringMatching(/: test words$/)];
      expect(gate.overrides).toEqual(overrides.map((one) => ({ ...one, against })));
    }
    if (!gate.ok) expect(gate.lines[0]).toContain('cannot be overridden');
  });

  test('an expired calibration, a lamp below its limit and a contact that did not move have no override', () => {
    const fixed = CARE_ITEM_NAMES.filter((name) => !CARE_ITEMS[name].mayOverride);
    expect(fixed).toEqual([
      'calibration-pressure',
      'calibration-irradiance',
      'calibration-temperature',
      'lamp-output',
      'interlocks',
    ]);
  });

  test('one override lifts one block, and needs a name', () => {
    const blocked = [item('o-ring', 'blocked'), item('health', 'blocked')];
    const overrides = [{ item: 'o-ring', reason: 'reason' }] as const;
    const gate = careGate(blocked, { overrides, by: 'Demo Person' });
    expect(!gate.ok && gate.lines).toEqual([expect.stringContaining('seal and pump test')]);
    expect(careGate([item('o-ring', 'blocked')], { overrides, by: ' ' }).ok).toBe(false);
  });

  test('records no override that was not needed', () => {
    const overrides = [{ item: 'o-ring', reason: 'reason' }] as const;
    const gate = careGate([item('o-ring', 'due-soon')], { overrides, by: 'Demo Person' });
    expect(gate.ok && gate.overrides).toEqual([]);
  });

  test('--override wants an item that may be overridden and a reason', () => {
    expect(collectOverride('o-ring= new one comes tomorrow', [])).toEqual([
      { item: 'o-ring', reason: 'new one comes tomorrow' },
    ]);
    for (const words of ['o-ring', 'o-ring=', 'lamp-output=it looks fine', 'polish=no']) {
      expect(() => collectOverride(words, [])).toThrow('accepted');
    }
  });
});

describe('care before a run', () => {
  let records = '';
  beforeEach(() => {
    records = mkdtempSync(join(tmpdir(), 'meniscus-care-'));
  });
  afterEach(() => rmSync(records, { recursive: true, force: true }));

  const asked = (given = {}) => ({
    ...nothing,
    records,
    care: undefined,
    simulated: true,
    today: '2000-01-01',
    ...given,
  });
  const keep = (body: CareBody) =>
    keepCare(records, {
      at: `${body.on}T08:00:00.000Z`,
      name: body.what,
      body,
      person: 'Demo Person',
    });
  const unit = { unit: 'demo bench unit', on: '2000-01-01' } as const;

  test('the demo unit in a fresh folder is quiet, with its own calibrations in force', () => {
    const care = careForRun(DEFAULT_SETTINGS, asked());
    expect(care).toMatchObject({ ok: true, warnings: [], overrides: [] });
    expect(care.ok && care.applied.map(({ channel }) => channel)).toEqual([
      'pressure',
      'irradiance',
      'temperature',
    ]);
    const expired = careForRun(DEFAULT_SETTINGS, asked({ today: '2000-12-31' }));
    expect(!expired.ok && expired.lines.join()).toContain('expired');
  });

  test('a real board that was never calibrated is told so and may go on', () => {
    const care = careForRun(DEFAULT_SETTINGS, asked({ simulated: false }));
    expect(care.ok && care.warnings.join()).toContain('not calibrated');
    expect(care.ok && care.applied).toEqual([]);
  });

  test('a lamp that was measured too weak blocks, and on another board says nothing', async () => {
    await keep({ what: 'lamp', ...unit, simulated: true, irradianceWPerM2: 110, lampOnH: null });
    const refused = careForRun(DEFAULT_SETTINGS, asked());
    expect(!refused.ok && refused.lines).toEqual([
      expect.stringContaining('this cannot be overridden'),
    ]);
    expect(careForRun(DEFAULT_SETTINGS, asked({ simulated: false })).ok).toBe(true);
  });

  test('the lamp as last measured is the one that the job knows', async () => {
    await keep({ what: 'lamp', ...unit, simulated: true, irradianceWPerM2: 171.3, lampOnH: null });
    const care = careForRun(DEFAULT_SETTINGS, asked());
    expect(care.ok && care.settings.config.unit.lampLastKnownWPerM2).toBe(171);
  });

  test('a care file that is not sound is told with file, path and value', () => {
    const care = careForRun(DEFAULT_SETTINGS, asked({ care: join(records, 'none.json') }));
    expect(!care.ok && care.lines.join()).toContain('none.json');
  });
});
