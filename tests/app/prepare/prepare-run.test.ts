import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { configOfHeader } from '../../../src/app/attempts/attempt-entry.ts';
import intake from '../../../src/app/defaults/intake.json' with { type: 'json' };
import job from '../../../src/app/defaults/job.json' with { type: 'json' };
import resin from '../../../src/app/defaults/resin.json' with { type: 'json' };
import unitFile from '../../../src/app/defaults/unit.json' with { type: 'json' };
import { extrasIn, jobFactsIn } from '../../../src/app/prepare/job-facts.ts';
import { collectOverride, OVERRIDABLE } from '../../../src/app/prepare/overrides.ts';
import {
  type Prepared,
  type PrepareOptions,
  prepareRun,
} from '../../../src/app/prepare/prepare-run.ts';
import { scratchFolder, writeJson } from '../../cli/process.ts';

const folder = scratchFolder();
const SIMULATED = { simulated: true, today: '2000-01-01', todayUtc: '2000-01-01' };
const REAL = { ...SIMULATED, simulated: false };
let count = 0;
const file = (content: unknown): string => writeJson(folder, `f${count++}.json`, content);

const prepare = (options: Partial<PrepareOptions>, when = SIMULATED): Promise<Prepared> =>
  prepareRun({ records: join(folder, 'none'), override: [], ...options }, when);
const ready = (prepared: Prepared) => {
  if (!prepared.ok) throw new Error(prepared.lines.join('\n'));
  return prepared;
};
const refusal = (prepared: Prepared): string =>
  prepared.ok ? 'nothing was refused' : prepared.lines.join('\n');

const BEFORE_DRIVER = { ...intake, place: { ...intake.place, fromLeftMm: 420 } };
const EXPIRED = { ...resin, expiresOn: '1999-12-31', openedOn: null };

describe('the demo job on the simulated board', () => {
  it('may begin, says nothing, and carries what the certificate needs', async () => {
    const { about, warnings } = ready(await prepare({}));
    expect(warnings).toEqual([]);
    expect(extrasIn({ about })).toMatchObject({
      assessment: { answer: 'allowed' },
      overrides: [],
    });
    const facts = jobFactsIn({ about: JSON.parse(JSON.stringify(about)) });
    expect(facts.intake?.assessment?.answer).toBe('allowed');
    expect(facts.intake?.drawingSvg).toContain('<svg');
    expect(facts.intake?.briefSvg).toContain('width="90mm"');
    expect(facts.calibrations?.map(({ channel }) => channel)).toEqual([
      'pressure',
      'irradiance',
      'temperature',
    ]);
    expect(facts.care?.length).toBeGreaterThan(5);
  });

  it('may have its longest leg grow to what the rule allows, and a replay knows it', async () => {
    const { about, settings } = ready(await prepare({}));
    // A break of 10 mm legs: the rule set of the demo allows legs of 50 mm.
    const legRule = { longestM: 0.05, rule: expect.stringContaining('50 mm') };
    expect(settings.config.legRule).toEqual(legRule);
    const header = {
      inputs: { ...settings.inputs, extra: {} },
      about: JSON.parse(JSON.stringify(about)),
    };
    const again = configOfHeader(header, 'header');
    expect(again.ok && again.value.legRule).toEqual(legRule);
  });
});

describe('what a journal from before holds', () => {
  it('is read without the brief drawing', async () => {
    const { about } = ready(await prepare({}));
    const older = JSON.parse(JSON.stringify(about));
    delete older.intake.briefSvg;
    delete older.intake.legLimit;
    expect(jobFactsIn({ about: older }).intake).toMatchObject({
      briefSvg: null,
      legLimit: null,
      drawingSvg: expect.stringContaining('<svg'),
    });
  });
});

describe('a damage that the rules do not allow', () => {
  it('is refused with the rule, and how a person may decide otherwise', async () => {
    const said = refusal(await prepare({ intake: file(BEFORE_DRIVER) }));
    expect(said).toContain('not-allowed-here');
    expect(said).toContain('Verkehrsblatt');
    expect(said).toContain('--override assessment=REASON --by NAME');
  });

  it('may begin by a named override, which goes into the record with who set it aside', async () => {
    const override = collectOverride('assessment=coupon on the bench, not a vehicle', []);
    const prepared = ready(
      await prepare({ intake: file(BEFORE_DRIVER), override, by: 'demo person' }),
    );
    expect(prepared.about.overrides).toEqual([
      {
        item: 'assessment',
        reason: 'coupon on the bench, not a vehicle',
        against: [
          'not-allowed-here, technically can',
          expect.stringMatching(/far field of view.*Verkehrsblatt 1986, issue 4/),
        ],
      },
    ]);
    expect(prepared.settings.people).toMatchObject({ overrideBy: 'demo person' });
    expect(prepared.warnings.join('\n')).toContain('overridden for this repair');
    expect(JSON.stringify(prepared.about)).not.toContain('demo person');
  });

  it('is not set aside by nobody', async () => {
    const override = collectOverride('assessment=why not', []);
    expect(refusal(await prepare({ intake: file(BEFORE_DRIVER), override }))).toContain(
      '--by NAME',
    );
    expect(refusal(await prepare({ intake: file(BEFORE_DRIVER), override, by: '  ' }))).toContain(
      '--by NAME',
    );
  });

  it('is refused where an answer is not known', async () => {
    const unknown = { ...intake, damage: { ...intake.damage, innerPlyTouched: 'unknown' } };
    expect(refusal(await prepare({ intake: file(unknown) }))).toContain('innerPlyTouched');
  });
});

describe('an intake sheet beside a job sheet', () => {
  it('of another break is told by path and both values', async () => {
    const other = file({ ...intake, damage: { ...intake.damage, pitMm: 3 } });
    const said = refusal(await prepare({ intake: other, job: file(job) }));
    expect(said).toContain('damage.pitMm is 2; accepted: 3');
  });

  it('of another job is refused with both files and both references', async () => {
    const other = file({ ...intake, reference: 'other-car' });
    const sheet = file(job);
    const said = refusal(await prepare({ intake: other, job: sheet }));
    expect(said).toContain(
      `${sheet}: reference is "demo-0001"; accepted: "other-car", as ${other} states`,
    );
  });

  it('may leave open what the job sheet knows', async () => {
    const open = file({ ...intake, damage: { ...intake.damage, depthMm: 'unknown' } });
    const { settings } = ready(await prepare({ intake: open, job: file(job) }));
    expect(settings.config.job.damage.depthM).toBe(0.0015);
  });

  it('is told to be missing where there is none', async () => {
    const { about, warnings } = ready(await prepare({ job: file(job) }));
    expect(about.intake).toBeNull();
    expect(warnings).toContain('no intake sheet: this damage was not assessed against rules');
  });
});

describe('a bottle of resin', () => {
  it('puts its name, lot, thickness and working curve into the job', async () => {
    const bottle = { ...resin, name: 'thin one', lot: 'L-2', penetrationDepthMm: 2 };
    const { settings } = ready(await prepare({ resin: file(bottle) }));
    expect(settings.config.job.resin).toMatchObject({ name: 'thin one', lot: 'L-2' });
    expect(settings.config.job.resin.viscosityPaSAt20C).toBeCloseTo(0.05, 6);
    expect(settings.config.job.resin.curve).toEqual({ criticalJPerM2: 1000, penetrationM: 0.002 });
  });

  it('that this lamp does not set is refused, and by override the record says so', async () => {
    const violet = { ...resin, light: { fromNm: 385, toNm: 420 } };
    const against =
      'demo resin, lot demo-lot-1: set by light of 385 to 420 nm; this lamp peaks at 365 nm';
    expect(refusal(await prepare({ resin: file(violet) }))).toContain(against);
    const override = collectOverride('resin=trial on a coupon', []);
    const { about } = ready(await prepare({ resin: file(violet), override, by: 'demo person' }));
    expect(about.overrides).toEqual([
      { item: 'resin', reason: 'trial on a coupon', against: [against] },
    ]);
    expect(about.resin).toMatchObject({ light: { fromNm: 385, toNm: 420 } });
  });

  it('is refused under a lamp of another wavelength, whose radiometer agrees with it', async () => {
    const { lamp, channels } = unitFile;
    const violet = {
      ...unitFile,
      lamp: { ...lamp, peakNm: 395 },
      channels: { ...channels, irradiance: { ...channels.irradiance, adjustedAtNm: 395 } },
    };
    expect(refusal(await prepare({ unit: file(violet), resin: file(resin) }))).toContain(
      'set by light of 345 to 385 nm; this lamp peaks at 395 nm',
    );
  });

  it('for the pit is held to the same lamp', async () => {
    const violet = { ...resin, use: 'pit', light: { fromNm: 385, toNm: 420 } };
    expect(refusal(await prepare({ pitResin: file(violet) }))).toMatch(
      /bottle of pit resin: .*385 to 420 nm; this lamp peaks at 365 nm/,
    );
  });

  it('whose file does not say which light sets it is told of', async () => {
    const { warnings } = ready(await prepare({ resin: file({ ...resin, light: undefined }) }));
    expect(warnings.join(' ')).toContain('its file does not say which light sets it');
  });

  it('that has expired is refused, or used by a named override', async () => {
    expect(refusal(await prepare({ resin: file(EXPIRED) }))).toContain('expired on 1999-12-31');
    const override = collectOverride('resin=practice on a coupon', []);
    const { about } = ready(await prepare({ resin: file(EXPIRED), override, by: 'demo person' }));
    expect(about.overrides.map(({ item }) => item)).toEqual(['resin']);
  });

  it('that is a demo is refused on a real board, and taken there when its file says it is none', async () => {
    const invented = 'an invented demo bottle, not for a real board';
    expect(refusal(await prepare({ resin: file(resin) }, REAL))).toContain(invented);
    const real = file({ ...resin, demo: false });
    expect(refusal(await prepare({ resin: real }, REAL))).not.toContain(invented);
  });

  it('of the fill is not taken for the pit', async () => {
    expect(refusal(await prepare({ pitResin: file(resin) }))).toContain('not for the pit');
    const pit = { ...resin, name: 'pit resin', use: 'pit' };
    const { settings } = ready(await prepare({ pitResin: file(pit) }));
    expect(settings.config.job.pitResin?.name).toBe('pit resin');
  });
});

describe('what is set aside and agreed', () => {
  it('may not name a person, because it cannot be removed from the record', async () => {
    const override = collectOverride('resin=demo technician says so', []);
    const said = refusal(await prepare({ resin: file(EXPIRED), override, by: 'another' }));
    expect(said).toContain('without the technician');
    expect(refusal(await prepare({ agreement: 'Agreed with demo technician' }))).toContain(
      '--agreement',
    );
  });

  it.each(['calibration-pressure=x', 'lamp-output=x', 'everything=x', 'resin', 'resin='])(
    'is not %s',
    (words) => {
      expect(() => collectOverride(words, [])).toThrow('accepted');
    },
  );

  it('is named once: the last reason counts', () => {
    const first = collectOverride('resin=one', []);
    expect(collectOverride('resin=two', first)).toEqual([{ item: 'resin', reason: 'two' }]);
    expect(OVERRIDABLE).toContain('o-ring');
  });
});
