/** Certificate and claims in a language that is one folder, and the same keys in all. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { LANGUAGES } from '../../../src/app/prepare/languages.ts';
import { paperWordsOf } from '../../../src/app/prepare/paper-words.ts';
import { ENGLISH_WORDS, type JobWords } from '../../../src/app/prepare/terminal-words.ts';
import { said } from '../../../src/core/sayings.ts';
import { problemLine } from '../../../src/core/settings.ts';
import { certificate } from '../../../src/document/certificate/certificate.ts';
import { whatWasChecked } from '../../../src/document/chain-mark.ts';
import { reportDocument } from '../../../src/document/report/report-document.ts';
import { paneDrawing } from '../../../src/intake/drawing/pane-drawing.tsx';
import { loadBuiltInRuleSets } from '../../../src/intake/rules/rule-sets.ts';
import claims from '../../../src/panel/catalogues/en/claims.json' with { type: 'json' };
import record from '../../../src/panel/catalogues/en/record.json' with { type: 'json' };
import { ALARM_TABLE } from '../../../src/safety/alarm-table.ts';
import { factsOf, JOB, longFacts } from '../../document/document-data.ts';
import { anySheet } from '../../intake/any-sheet.ts';
import { ABOUT } from '../../papers-in-order.ts';
import { APART, apartJob } from '../../report/apart-job.ts';
import { AIR_CASES } from '../../report/claims/air-cases.ts';
import { BESIDE_CASES } from '../../report/claims/beside-cases.ts';
import { GLASS_CASES } from '../../report/claims/glass-cases.ts';
import { MEASURED_CASES } from '../../report/claims/measured-cases.ts';
import { GOOD_JOB } from '../../report/job-story.ts';
import { reportOf } from '../../report/report-of.ts';
import { madeLanguage, outsideWords } from './made-language.ts';

function words(language: string): JobWords {
  const read = paperWordsOf(language);
  if (!read.ok) throw new Error(read.problems.map(problemLine).join('\n'));
  return read.value;
}

const CATALOGUES = join(import.meta.dirname, '../../../src/panel/catalogues');
const made = words(madeLanguage());
const CASES = Object.entries({ ...BESIDE_CASES, ...AIR_CASES, ...MEASURED_CASES, ...GLASS_CASES });

describe('a language of one folder', () => {
  test.each(CASES)('words every line of a claim: %s', (_, row) => {
    const { events = GOOD_JOB, about = ABOUT, telling } = row;
    const lines = reportOf(events, { about, ...telling }).claims.flatMap((claim) => [
      ...claim.objections.flatMap((one) => one.said),
      ...claim.support.map((one) => one.said),
    ]);
    expect(lines.length).toBeGreaterThan(0);
    const left = lines.flatMap((line) => outsideWords(said(line, made.tongue)));
    const given = wordsIn(textsIn([about, telling ?? {}]).join(' '));
    expect(left.filter((word) => !GIVEN.has(word) && !given.includes(word))).toEqual([]);
  });

  test('words the certificate, but for what people and files named', () => {
    for (const facts of [factsOf(), longFacts()]) {
      const { blocks, title, foot } = certificate(facts, made);
      const texts = textsIn([blocks, title, foot])
        .join('\n')
        .replaceAll(/[0-9a-f]{64}/g, '');
      const left = outsideWords(texts).filter((word) => !GIVEN.has(word));
      expect(left.filter((word) => !givenTo(facts).includes(word))).toEqual([]);
    }
  });

  test('words the report and its drawings, but for what people and files named', () => {
    for (const facts of [factsOf(), longFacts(), factsOf(apartJob(), { profile: APART })]) {
      const page = reportDocument(facts, made);
      const checked = whatWasChecked(facts, { journal: 'agrees', people: 'agree' }, made);
      const drawn = page.blocks.flatMap((block) =>
        block.kind === 'figure' && block.foreign !== true ? wordsOfDrawing(block.svg) : [],
      );
      expect(drawn.length).toBeGreaterThan(10);
      const texts = textsIn([page, checked], '', REPORT_LOOKS)
        .join('\n')
        .replaceAll(/[0-9a-f]{64}/g, '');
      const fields = wordsIn(JSON.stringify(facts.report.inputs).replaceAll(/([A-Z])/g, ' $1'));
      const given = [...givenTo(facts), ...fields].map((word) => word.toLowerCase());
      const left = [texts, ...drawn]
        .flatMap(outsideWords)
        .filter((word) => !GIVEN.has(word) && !given.includes(word.toLowerCase()));
      expect(left).toEqual([]);
    }
  });

  test('words the drawing of the pane, but for names of zones and rules', () => {
    const sets = loadBuiltInRuleSets();
    if (!sets.ok) throw new Error('no rule sets');
    const given = wordsIn(JSON.stringify(sets.value));
    fc.assert(
      fc.property(anySheet, fc.constantFrom('whole', 'brief'), (sheet, form) => {
        const svg = paneDrawing(sheet, sets.value.slice(0, 4), made.drawing, form);
        const texts = svg
          .replaceAll(/aria-label="([^"]*)"/g, '<text>$1<')
          .replaceAll(sheet.reference, '');
        // A wrapped line may break within brackets: all lines of the drawing are read as one.
        const left = outsideWords(wordsOfDrawing(texts).join(' '));
        expect(left.filter((word) => !given.includes(word) && word !== 'mm')).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });

  test('that lacks a sentence is refused before a job, by file and key', () => {
    const { lines: _, ...rest } = claims;
    const read = paperWordsOf(madeLanguage({ claims: rest }));
    expect(read.ok ? [] : read.problems.map(problemLine)).toEqual([
      expect.stringMatching(/xx\/claims\.json: lines is missing/),
    ]);
  });

  test('with a sentence that nothing says is refused as well', () => {
    const read = paperWordsOf(madeLanguage({ record: { ...record, greeting: 'Good day' } }));
    expect(read.ok ? [] : read.problems.map(problemLine)).toEqual([
      expect.stringMatching(/xx\/record\.json: greeting is "Good day"/),
    ]);
  });
});

describe('every built-in language', () => {
  test.each(LANGUAGES)('%s has every key, and each text its figures', (language) => {
    // A folder is checked, a built-in language is taken as it is.
    const { tongue: _, ...checked } = words(join(CATALOGUES, language));
    expect(words(language)).toMatchObject(checked);
    expect(checked.certificate.language).toBe(language);
  });

  test('the English one is the language of records', () => {
    expect(words('en')).toBe(ENGLISH_WORDS);
    for (const { id, title, remedy } of ALARM_TABLE) {
      expect(record.alarms[id]).toEqual({ name: id.replaceAll('-', ' '), title, remedy });
    }
  });
});

test('the Spanish certificate writes numbers with a comma and units as they are', () => {
  const text = textsIn(certificate(factsOf(), words('es')).blocks).join('\n');
  expect(text).toContain('al menos 6,00\u00a0J/cm²');
  expect(text).toContain('vacío 25,1\u00a0kPa\u00a0abs, presión 238,0\u00a0kPa\u00a0abs');
  expect(text).toContain('profundidad 1,5\u00a0mm');
  expect(text).not.toMatch(/\d\.\d+\u00a0(J|kPa|mm|°C)/);
});

test('an alarm of an old journal is worded in Spanish from its English sentence', () => {
  const { tongue } = words('es');
  const why =
    'Over-pressure. Expected at most 172.0 kPa gauge, seen 180.5 kPa gauge. Vent is open. Look for new legs. Have the pressure sensor and the pump checked.';
  expect(tongue.recorded(why)).toBe(
    'Sobrepresión. Se esperaba: como máximo 172,0 kPa rel; visto: 180,5 kPa rel. Busque patas nuevas. Haga revisar el sensor de presión y la bomba.',
  );
});

test('every sentence of a claim is said somewhere', () => {
  const folder = join(import.meta.dirname, '../../../src/report');
  const sources = [folder, join(folder, 'claims')].flatMap((room) =>
    readdirSync(room)
      .filter((name) => name.endsWith('.ts'))
      .map((name) => readFileSync(join(room, name), 'utf8')),
  );
  const source = sources.join('\n');
  const BY_CHANNEL = /^(glass|air)-(unstated|unmeasured|stated)$/;
  const unsaid = Object.keys(claims.lines).filter(
    (key) => !BY_CHANNEL.test(key) && !source.includes(`'lines.${key}'`),
  );
  expect(unsaid).toEqual([]);
});

const LOOKS = ['kind', 'look', 'svg', 'id', 'grade', 'type', 'empty'];
const REPORT_LOOKS = [...LOOKS.filter((key) => key !== 'empty'), 'language', 'fit'];

/** Every text of a page, drawings and codes left out. */
function textsIn(value: unknown, key = '', looks = LOOKS): readonly string[] {
  if (typeof value === 'string') return looks.includes(key) ? [] : [value];
  if (Array.isArray(value)) return value.flatMap((one) => textsIn(one, '', looks));
  if (typeof value !== 'object' || value === null || value instanceof Uint8Array) return [];
  return Object.entries(value).flatMap(([k, one]) => textsIn(one, k, looks));
}

const wordsOfDrawing = (svg: string): readonly string[] =>
  [...svg.matchAll(/<(text|title|desc)[^>]*>([^<]*)</g)].map(([, , text = '']) => text);

const wordsIn = (text: string): readonly string[] => text.match(/\p{L}+/gu) ?? [];

/** Units, the program's name, and what the demo story's people named. */
const GIVEN: ReadonlySet<string> = new Set([
  ...wordsIn('kPa abs Pa mPa mW mJ cm mm nm min UTC Meniscus meniscus journal record'),
  // Seen by the story's alarms.
  'other',
  // A rule and a reason of the longest facts.
  ...wordsIn('Expected one thing quite another remedy near which many words'),
  ...wordsIn(textsIn([JOB, ABOUT]).join(' ')),
]);

const givenTo = ({ report: _, ...facts }: ReturnType<typeof factsOf>): readonly string[] =>
  wordsIn(textsIn(facts).join(' '));
