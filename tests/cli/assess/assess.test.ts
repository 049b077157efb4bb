import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import intake from '../../../src/app/defaults/intake.json' with { type: 'json' };
import { assessmentOf } from '../../../src/app/prepare/assessment-of.ts';
import {
  freeFolder,
  inTheWay,
  writeAssessment,
  writeDraft,
} from '../../../src/cli/assess/assess-files.ts';
import { problemLine } from '../../../src/core/settings.ts';
import { ENGLISH_DRAWING } from '../../../src/intake/drawing/drawing-words.ts';
import { runHere } from '../here.ts';
import { scratchFolder, writeJson } from '../process.ts';

const folder = scratchFolder();
const TODAY = '2000-01-02';
const DEMO: Readonly<Record<string, unknown>> = intake;

const withAnswers = (part: 'damage' | 'pane' | 'place', answers: object): unknown => ({
  ...DEMO,
  [part]: { ...intake[part], ...answers },
});
const assessed = (raw: unknown, refs: readonly string[] = []) => {
  const made = assessmentOf(raw, refs, 'a.json', TODAY, ENGLISH_DRAWING);
  if (!made.ok) throw new Error(made.problems.map(problemLine).join('\n'));
  return made.value;
};
const refused = (raw: unknown, refs: readonly string[] = []): string => {
  const made = assessmentOf(raw, refs, 'a.json', TODAY, ENGLISH_DRAWING);
  return made.ok ? 'nothing was refused' : made.problems.map(problemLine).join('\n');
};

describe('an assessment from a sheet', () => {
  test('the demo sheet is allowed and can be done', () => {
    const { assessment } = assessed(DEMO);
    expect(assessment.answer).toBe('allowed');
    expect(assessment.technical.answer).toBe('can');
  });

  test('the same damage before the driver is not allowed here, though it can be done', () => {
    const { assessment } = assessed(withAnswers('place', { fromLeftMm: 420 }));
    expect(assessment.answer).toBe('not-allowed-here');
    expect(assessment.technical.answer).toBe('can');
  });

  test('the demo sheet held also against figures from memory needs a person', () => {
    const { assessment } = assessed(DEMO, ['us-rolags']);
    expect(assessment.answer).toBe('needs-a-person');
    expect(assessment.reasons.map(({ id }) => id)).toEqual(['out-of-force', 'from-memory']);
  });

  test('a sheet without rule sets needs a person, and --rules chooses some', () => {
    const none = { ...DEMO, ruleSets: [] };
    expect(assessed(none).assessment.answer).toBe('needs-a-person');
    expect(assessed(none, ['de-verkehrsblatt-1986']).assessment.answer).toBe('allowed');
  });

  test('rule sets named twice are applied once, those of a shop beside the others', () => {
    const named = ['de-verkehrsblatt-1986', 'us-rolags'];
    const twice = assessed(DEMO, named);
    expect(twice.ruleSets.map(({ id }) => id)).toEqual(named);
    const shop = { ...twice.ruleSets[1], id: 'shop', zones: [], rules: [SMALL_ONLY] };
    const both = assessed(DEMO, [...named, writeJson(folder, 'shop.json', shop)]);
    expect(both.ruleSets).toHaveLength(3);
    expect(both.assessment.answer).toBe('not-allowed-here');
  });

  test('a rule set that nobody knows is refused by where it is named', () => {
    expect(refused({ ...DEMO, ruleSets: ['nowhere'] })).toContain(
      'a.json: ruleSets.0 is "nowhere"; accepted: a .json file, or one of as-nzs',
    );
    expect(refused(DEMO, ['nowhere'])).toContain('--rules: the file is "nowhere"');
    expect(refused(DEMO, [join(folder, 'missing.json')])).toContain('not readable (ENOENT)');
  });

  test('every answer that is missing is named by its own path, sections too', () => {
    const lines = refused({ schema: 'meniscus/intake@1', damage: { type: 'crack' } }).split('\n');
    for (const path of ['reference', 'vehicle.class', 'pane.sweep', 'damage.pitMm']) {
      expect(
        lines.some((line) => line.startsWith(`a.json: ${path} is missing`)),
        path,
      ).toBe(true);
    }
    expect(lines.some((line) => line.includes('damage.type'))).toBe(false);
    expect(refused([])).toContain('a.json: the file is []');
  });

  test('inches and contradictions are refused, inches once', () => {
    const inches = refused(withAnswers('pane', { widthMm: 55 }));
    expect(inches).toBe(
      'a.json: pane.widthMm is 55; accepted: millimetres: this looks like inches, did you mean 1397?',
    );
    expect(refused(withAnswers('damage', { pitMm: 25 }))).toContain(
      'a.json: damage.pitMm is 25; accepted: what fits damage.diameterMm (22)',
    );
  });
});

const SMALL_ONLY = {
  id: 'small-only',
  in: ['anywhere'],
  about: 'extentMm',
  limit: { is: 'at-most', value: 20, unit: 'mm' },
  // biome-ignore lint/suspicious/noThenProperty: the file's word.
  then: 'not-allowed',
  words: 'This shop fills up to 20 mm.',
  provenance: 'shop',
  source: 'demo data',
};

describe('the files of an assessment', () => {
  test('are sheet, assessment, drawing and page, and say who decides', () => {
    const out = join(folder, 'out');
    writeAssessment(out, DEMO, assessed(DEMO), TODAY);
    expect(readdirSync(out).toSorted()).toEqual([
      'assessment.html',
      'assessment.json',
      'intake.json',
      'pane.svg',
    ]);
    expect(JSON.parse(readFileSync(join(out, 'intake.json'), 'utf8'))).toEqual(DEMO);
    const data = JSON.parse(readFileSync(join(out, 'assessment.json'), 'utf8'));
    expect(data).toMatchObject({ reference: 'demo-0001', assessedOn: TODAY, answer: 'allowed' });
    const page = readFileSync(join(out, 'assessment.html'), 'utf8');
    expect(page).toContain('Allowed by the chosen rules');
    expect(page).toContain('Local law decides, and the person who may decide under it.');
    expect(page).toContain('Verkehrsblatt 1986, issue 4, no. 55');
    expect(page).toContain('<svg');
    expect(inTheWay(out)).toHaveLength(4);
    expect(inTheWay(folder)).toEqual([]);
  });

  test('a page against it names rule, measure, limit and provenance of each reason', () => {
    const out = join(folder, 'against');
    const raw = withAnswers('damage', { pitMm: 5.1, diameterMm: 22 });
    writeAssessment(out, raw, assessed(raw), TODAY);
    const page = readFileSync(join(out, 'assessment.html'), 'utf8');
    for (const words of [
      'Not allowed here',
      'pit 5.1 mm',
      'at most 5 mm',
      'read in a copy of the text',
    ]) {
      expect(page).toContain(words);
    }
  });

  test('an edition out of force is told as such in page and data, never by its name alone', () => {
    const out = join(folder, 'old-edition');
    const made = assessed(DEMO, ['gb-bs-au-242a-1998']);
    writeAssessment(out, DEMO, made, TODAY);
    const page = readFileSync(join(out, 'assessment.html'), 'utf8');
    expect(page).toContain('withdrawn 2023-03, superseded by BS AU 242b:2022');
    expect(page).toContain('A person must decide');
    expect(JSON.parse(readFileSync(join(out, 'assessment.json'), 'utf8')).ruleSets).toContainEqual(
      expect.objectContaining({ outOfForce: expect.objectContaining({ withdrawnOn: '2023-03' }) }),
    );
  });

  test('a folder that nobody named is a new one', () => {
    expect(freeFolder('van 7 / left')).toBe(join('assessments', 'van-7-left'));
    expect(freeFolder('///')).toBe(join('assessments', 'sheet'));
  });

  test('a draft goes back to its file, and a new one over no other', () => {
    const first = writeDraft({ a: 1 }, null, folder);
    const second = writeDraft({ a: 2 }, null, folder);
    expect(second).not.toBe(first);
    expect(writeDraft({ a: 3 }, first, folder)).toBe(first);
    expect(JSON.parse(readFileSync(first, 'utf8'))).toEqual({ a: 3 });
    expect(JSON.parse(readFileSync(second, 'utf8'))).toEqual({ a: 2 });
  });
});

describe('meniscus assess', () => {
  const file = writeJson(folder, 'demo.json', DEMO);

  test('prints the answer, writes into a new folder and never over one', async () => {
    const args = ['assess', '--intake', file, '--out', 'new'];
    const first = await runHere(args, folder);
    expect(first).toMatchObject({ code: 0, err: '' });
    expect(first.out).toContain('Allowed by the chosen rules.');
    expect(first.out).toContain('Local law decides, and the person who may decide under it.');
    writeFileSync(join(folder, 'new', 'pane.svg'), 'mine');
    const second = await runHere(args, folder);
    expect(second).toMatchObject({ code: 2, out: '' });
    expect(second.err).toContain('there already');
    expect(readFileSync(join(folder, 'new', 'pane.svg'), 'utf8')).toBe('mine');
  });

  test('not allowed here is an answer like another: code 0, as JSON on request', async () => {
    const strip = writeJson(folder, 'strip.json', withAnswers('place', { fromLeftMm: 420 }));
    const ended = await runHere(['assess', '--intake', strip, '--json'], folder);
    expect(ended.code).toBe(0);
    expect(JSON.parse(ended.out)).toMatchObject({ answer: 'not-allowed-here', files: [] });
  });

  test.each([
    ['by the rules', withAnswers('place', { antenna: false }), ['--rules', 'us-rolags']],
    ['by what is not known of the field', withAnswers('place', { cameraField: 'unknown' }), []],
    ['because nobody chose rules', { ...DEMO, ruleSets: [] }, []],
  ])('what a person must decide %s is never said to begin', async (_why, raw, more) => {
    const path = writeJson(folder, 'decide.json', raw);
    const args = ['assess', '--intake', path, ...more];
    const told = await runHere(args, folder);
    expect(told.out).toContain('person must');
    expect(told.out).toContain(
      'Advice for the person who must decide; no work begins before that.',
    );
    expect(told.out).not.toMatch(/can begin|nothing speaks against/);
    const data = JSON.parse((await runHere([...args, '--json'], folder)).out);
    expect(data.advice.answer).toBe('decide');
  });

  test('what is not allowed comes with no advice and no word of beginning', async () => {
    const path = writeJson(folder, 'refused.json', withAnswers('place', { fromLeftMm: 420 }));
    const { out } = await runHere(['assess', '--intake', path], folder);
    expect(out).toContain('Not allowed here');
    expect(out).not.toMatch(/Advice|can begin|nothing speaks against/);
  });

  test('bad input, or nobody to ask, ends with code 2 and writes nothing', async () => {
    const bad = writeJson(folder, 'bad.json', withAnswers('damage', { pitMm: 'big' }));
    const ended = await runHere(['assess', '--intake', bad, '--out', 'none'], folder);
    expect(ended).toMatchObject({ code: 2, out: '' });
    expect(ended.err).toContain('damage.pitMm is "big"');
    expect(existsSync(join(folder, 'none'))).toBe(false);
    expect(await runHere(['assess'], folder)).toMatchObject({ code: 2, out: '' });
  });

  test('takes the rule sets of a place, and says where none is known', async () => {
    const bare = writeJson(folder, 'bare.json', { ...DEMO, ruleSets: [] });
    const place = (code: string) =>
      runHere(['assess', '--intake', bare, '--place', code, '--json'], folder);
    const germany = await place('de');
    expect(germany.err).toContain('Rules of the place: Germany: de-verkehrsblatt-1986');
    expect(JSON.parse(germany.out).answer).toBe('allowed');
    const italy = await place('it');
    expect(italy.err).toContain('No rule set is known here for this place (it).');
    expect(JSON.parse(italy.out)).toMatchObject({
      answer: 'needs-a-person',
      reasons: [{ id: 'no-rule-set' }],
    });
    const named = await place('Germany');
    expect(named).toMatchObject({ code: 2, out: '' });
    expect(named.err).toContain('--place: the file is "Germany"; accepted: a code such as de');
  });

  test('prints how the satisfied figures are known, and the verdict once more at the end', async () => {
    const { out } = await runHere(['assess', '--intake', file], folder);
    expect(out).toContain('Satisfied, and how the figures are known:');
    expect(out.replace(/\s+/g, ' ')).toContain(
      'crater, cracks, under-the-seal, inner-ply, interlayer, dry, clean: read in a copy of the text, looked at on 2026-11-26:',
    );
    expect(out.trimEnd().split('\n').at(-1)).toBe('Verdict: Allowed by the chosen rules.');
  });

  test('rule sets can be listed and printed as a table', async () => {
    const list = await runHere(['assess', '--list-rules'], folder);
    expect(list.code).toBe(0);
    expect(list.out).toContain('de-verkehrsblatt-1986\n');
    const table = await runHere(['assess', '--rules-table'], folder);
    expect(table.out).toContain('# Rules that come with the unit');
  });
});
