import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { LANGUAGES } from '../../../src/app/prepare/languages.ts';
import { catalogueOf } from '../../../src/app/prepare/load-catalogue.ts';
import { loadSettings } from '../../../src/app/prepare/load-settings.ts';
import { problemLine } from '../../../src/core/settings.ts';
import english from '../../../src/panel/catalogues/en/display.json' with { type: 'json' };

const folder = mkdtempSync(join(tmpdir(), 'meniscus-catalogue-'));
afterAll(() => rmSync(folder, { recursive: true }));

type Json = Record<string, unknown>;

/** A shop's own language: the English file with some words changed. */
function shopFile(change: (catalogue: Json) => void): string {
  const catalogue = structuredClone(english) as Json;
  put(catalogue, 'language', 'fr');
  put(catalogue, 'letters', 'é');
  change(catalogue);
  const path = join(folder, 'fr.json');
  writeFileSync(path, JSON.stringify(catalogue));
  return path;
}

/** Puts words, or nothing, where the path leads. */
function put(catalogue: Json, path: string, words: string | undefined): void {
  const keys = path.split('.');
  const last = keys.pop() ?? '';
  const inner = keys.reduce((outer, key) => outer[key] as Json, catalogue);
  if (words === undefined) delete inner[last];
  else inner[last] = words;
}

function problemsOf(nameOrPath: string): readonly string[] {
  const loaded = catalogueOf(nameOrPath);
  return loaded.ok ? [] : loaded.problems.map(problemLine);
}

describe('the language of the display', () => {
  test('is one of the built-in ones by its name', () => {
    expect(LANGUAGES).toEqual(['en', 'es']);
    for (const language of LANGUAGES) {
      const loaded = catalogueOf(language);
      expect(loaded.ok && loaded.value.catalogue.language).toBe(language);
    }
  });

  test('is English where nothing is said, and what is said over what the unit says', () => {
    const words = (language?: string) => {
      const loaded = loadSettings(language === undefined ? {} : { language });
      return loaded.ok ? loaded.value.language.language : loaded.problems;
    };
    expect(words()).toBe('en');
    expect(words('es')).toBe('es');
  });

  test('may be a file of a shop, one file for a whole language', () => {
    const path = shopFile((catalogue) => {
      put(catalogue, 'prompts.protect.title', 'Protégez');
    });
    const loaded = catalogueOf(path);
    expect(loaded.ok && loaded.value.catalogue.prompts.protect.title).toBe('Protégez');
    const builtIn = catalogueOf('en');
    expect(loaded.ok && builtIn.ok && loaded.value.note).not.toEqual(
      builtIn.ok && builtIn.value.note,
    );
  });

  test('is refused by a name that nobody knows, with what is accepted', () => {
    expect(problemsOf('xx')).toEqual([
      'language: the file is "xx"; accepted: en, es, the folder of a language, or a catalogue (.json)',
    ]);
    expect(problemsOf(join(folder, 'none.json'))[0]).toMatch(
      /none\.json: the file is not readable/,
    );
  });
});

describe('the letters of a language', () => {
  const refused = (letters: string, title: string) =>
    problemsOf(
      shopFile((catalogue) => {
        put(catalogue, 'letters', letters);
        put(catalogue, 'prompts.protect.title', title);
      }),
    ).map((line) => line.replace(/^.*fr\.json: /, ''));

  test('are at most eight: the display has room for no more', () => {
    expect(refused('éèàùêôçäö', 'Title')).toEqual([
      'letters is "éèàùêôçäö"; accepted: at most 8 letters',
    ]);
  });

  test('are each one that can be drawn, and named once', () => {
    expect(refused('éжé', 'Title').join(' ')).toMatch(/not "ж".*each letter once/);
  });

  test('are all that its texts need, and those that are missing are named', () => {
    expect(refused('é', 'Protègé ù')).toEqual([
      'letters is "é"; accepted: texts without è ù, or these letters named, at most 8 in all',
    ]);
  });
});

describe('a file that would leave a hole on the display is refused', () => {
  const refused = (change: (catalogue: Json) => void) => problemsOf(shopFile(change));

  test('an alarm that has no words', () => {
    const problems = refused((catalogue) => {
      put(catalogue, 'alarms.leak', undefined);
    });
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatch(/fr\.json: alarms\.leak is missing/);
  });

  test('a step without the caution that the others have', () => {
    const problems = refused((catalogue) => {
      put(catalogue, 'prompts.cure.caution', undefined);
    });
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatch(/prompts\.cure\.caution is missing/);
  });

  test('a title too long, an alphabet that is not there, a figure that nothing fills', () => {
    const problems = refused((catalogue) => {
      put(catalogue, 'prompts.protect.title', 'Protégez-vous bien');
      put(catalogue, 'states.wait', 'Ждите');
      put(catalogue, 'live.vacuumLeaves', 'Reste {part} %');
    });
    expect(problems.map((line) => line.replace(/^.*fr\.json: /, ''))).toEqual([
      'states.wait is "Ждите"; accepted: letters, digits and signs that the display has',
      'live.vacuumLeaves is "Reste {part} %"; accepted: a text with {share}',
      'prompts.protect.title is "Protégez-vous bien"; accepted: at most 14 characters',
    ]);
  });

  test('a field that nothing shows', () => {
    const problems = refused((catalogue) => {
      put(catalogue, 'live.weather', 'Pluie');
    });
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatch(/live\.weather is "Pluie"/);
  });
});
