/** From the damage to the certificate, as a person would do it, with a check set aside by name. */
import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import intake from '../../../src/app/defaults/intake.json' with { type: 'json' };
import resin from '../../../src/app/defaults/resin.json' with { type: 'json' };
import type { ReportData } from '../../../src/report/report-data.ts';
import { runHere } from '../here.ts';
import { type Ended, scratchFolder, writeJson } from '../process.ts';

const folder = scratchFolder();
const program = (...args: string[]): Promise<Ended> => runHere(args, folder);
const BEFORE_DRIVER = { ...intake, place: { ...intake.place, fromLeftMm: 420 } };
/** Asks for a person above 20 mm; the demo break has 22 mm. */
const SHOP = {
  schema: 'meniscus/rule-set@1',
  id: 'demo-shop',
  name: 'Demo shop',
  jurisdiction: 'demo',
  force: 'shop',
  kind: 'repair',
  covers: { vehicles: 'all' },
  edition: 'demo',
  inForceFrom: null,
  source: 'demo',
  notes: [],
  zones: [],
  rules: [
    {
      id: 'small-only',
      in: ['anywhere'],
      about: 'extentMm',
      limit: { is: 'at-most', value: 20, unit: 'mm' },
      // biome-ignore lint/suspicious/noThenProperty: the file's word.
      then: 'needs-a-person',
      words: 'Demo rule of a shop.',
      provenance: 'shop',
      source: 'demo',
    },
  ],
};
const page = (): string => readFileSync(join(folder, 'records/demo-0001/certificate.html'), 'utf8');

let assessed: Ended;
let refused: Ended;
let run: Ended;
let decided: Ended;
let gated: Ended;

beforeAll(async () => {
  const bottle = writeJson(folder, 'resin.json', {
    ...resin,
    expiresOn: '2099-12-31',
    usableAfterOpeningDays: 2000,
    openedOn: null,
  });
  const [ok, driver] = [
    writeJson(folder, 'ok.json', intake),
    writeJson(folder, 'driver.json', BEFORE_DRIVER),
  ];
  const made = ['--technician', 'demo technician', '--resin', bottle];
  const shop = ['--rules', writeJson(folder, 'shop.json', SHOP)];
  decided = await program('assess', '--intake', ok, ...shop, ...made, '--out', 'asked');
  const asked = ['--intake', 'asked/intake.json', '--job', 'asked/job.json'];
  gated = await program('run', '--speed', 'max', ...asked, '--resin', bottle);
  assessed = await program('assess', '--intake', ok, ...made, '--out', 'job');
  const job = ['--job', 'job/job.json', '--profile', 'job/profile.json', '--resin', bottle];
  const start = ['run', '--speed', 'max', '--intake', driver, ...job];
  refused = await program(...start);
  const named = ['--override', 'assessment=coupon on the bench', '--by', 'demo person'];
  run = await program(...start, ...named, '--agreement', 'A mark may stay.');
}, 120_000);

describe('a job from assessment to certificate', () => {
  it('is assessed, advised and made ready to run', () => {
    expect(assessed.code).toBe(0);
    expect(assessed.out).toContain('Advice: the repair can begin.');
    for (const name of ['intake', 'assessment', 'profile', 'job'])
      expect(existsSync(join(folder, 'job', `${name}.json`))).toBe(true);
  });

  it('that a person must decide, by a rule set named beside the sheet, is not begun by nobody', () => {
    expect(decided.out).toContain('A person must decide.');
    expect(decided.out).toContain('no work begins before that');
    expect(gated).toMatchObject({ code: 2, out: '' });
    expect(gated.err).toContain('needs-a-person, technically can');
    expect(gated.err).toContain('Demo rule of a shop.');
    expect(gated.err).toContain('--override assessment=REASON --by NAME');
  });

  it('is refused where the rules do not allow it, and nothing is started', () => {
    expect(refused.code).toBe(2);
    expect(refused.err).toContain('not-allowed-here');
    expect(refused.err).toContain('Nothing was started.');
  });

  it('is done when a named person sets that aside, and completes', () => {
    expect(run.code).toBe(0);
    expect(run.err).toContain('overridden for this repair: coupon on the bench');
  });

  it('has on its certificate the rules, what was set aside and by whom, and what was agreed', () => {
    const words = page();
    expect(words).toContain('NOT ALLOWED HERE');
    expect(words).toContain('coupon on the bench');
    expect(words).toContain('demo person');
    expect(words).toContain('A mark may stay.');
    expect(words).toContain('Pane');
  });

  it('is called good nowhere: the headline says what was set aside', async () => {
    const said = 'the assessment of the damage was set aside; the rules chosen do not allow it';
    // The terminal wraps it.
    expect(run.out.replaceAll(/\s+/g, ' ')).toContain(
      `Verdict: process within its limits, but ${said}`,
    );
    expect(run.out).toContain('Verkehrsblatt 1986, issue 4');
    expect(page()).toContain(said);
    expect(page()).not.toContain('class="verdict good"');
    const file = (name: string) => readFileSync(join(folder, 'records/demo-0001', name), 'utf8');
    expect(file('report.html')).toContain(said);
    expect(file('report.html')).not.toContain('class="verdict good"');
    const { claims, verdict } = JSON.parse(file('report.json')) as ReportData;
    expect(verdict.grade).not.toBe('good');
    const unmet = claims.filter(({ state }) => state === 'not met').map(({ id }) => id);
    expect(unmet).toEqual(['set-aside', 'rules']);
    expect(file('report.json')).not.toContain('demo person');
    expect((await program('records', 'list')).out).toContain('clear, with reservations');
  });

  it('is recorded with assessment and override, also when entered again from its journal alone', async () => {
    const shown = await program('records', 'show', 'demo-0001');
    for (const name of ['chain.jsonl', 'meniscus.db'])
      rmSync(join(folder, 'records', name), { force: true });
    const { out } = await program('records', 'rebuild');
    expect(out).toContain('Entered from its journal: demo-0001');
    const again = await program('records', 'show', 'demo-0001');
    for (const { out: words } of [shown, again]) {
      expect(words).toContain('not-allowed-here');
      expect(words).toContain('coupon on the bench');
      expect(words).toMatch(/not met +rules: the rules chosen do not allow it/);
    }
    expect((await program('records', 'verify')).code).toBe(0);
  });
});
