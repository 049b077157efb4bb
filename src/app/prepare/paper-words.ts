/**
 * The words of a record's papers and of a run's lines: of a built-in language, or of a shop's own
 * folder. Every key is checked before a job, so that no certificate lacks a sentence. A language
 * that is one file for the display alone has English papers.
 */
import { BUTTONS } from '../../core/frame.ts';
import { schemaLike } from '../../core/language-file.ts';
import { RECORD_PHRASES } from '../../core/phrases.ts';
import type { Pair } from '../../core/rewording.ts';
import type { Checked, SettingsProblem } from '../../core/settings.ts';
import type { Catalogue } from '../../panel/catalogue.ts';
import { tongueOf } from '../../report/language.ts';
import { builtInWords, LANGUAGES, wordsOf } from './languages.ts';
import { catalogueOf, ENGLISH } from './load-catalogue.ts';
import { readChecked } from './read-settings.ts';
import { ENGLISH_WORDS, type JobWords } from './terminal-words.ts';

const USES = ['certificate', 'claims', 'drawing', 'record', 'report', 'terminal'] as const;
type Words = Pick<JobWords, (typeof USES)[number]>;

/** `en`, `es`, or the folder of a language. */
export function paperWordsOf(nameOrPath: string): Checked<JobWords> {
  const display = catalogueOf(nameOrPath);
  if (!display.ok) return display;
  if (nameOrPath === 'en' || wordsOf(nameOrPath, 'certificate') === null) {
    return { ok: true, value: ENGLISH_WORDS };
  }
  // Built-in ones are checked by the tests: to check them takes a tenth of a second at each start.
  const builtIn = builtInWords(nameOrPath);
  const read: Checked<Words> =
    builtIn === null
      ? checkedIn(nameOrPath)
      : { ok: true, value: wordsFrom((use) => builtIn[use]) };
  if (!read.ok) return read;
  const { claims, record } = read.value;
  const tongue = tongueOf(claims, record, phrasePairs(display.value.catalogue));
  return { ok: true, value: { ...read.value, tongue } };
}

const wordsFrom = (of: (use: (typeof USES)[number]) => unknown): Words =>
  Object.fromEntries(USES.map((use) => [use, of(use)])) as unknown as Words;

/** Each file has the shape of the English one. */
function checkedIn(folder: string): Checked<Words> {
  const problems: SettingsProblem[] = [];
  const words = wordsFrom((use) => {
    const source = wordsOf(folder, use);
    if (source === null) return null;
    const found = readChecked(schemaLike<unknown>(ENGLISH_WORDS[use]), source);
    if (found.ok) return found.value.settings;
    problems.push(...found.problems);
    return null;
  });
  return problems.length > 0 ? { ok: false, problems } : { ok: true, value: words };
}

/** For a record that is worded later: of its own language where that is built in. */
export function paperWordsOfRecord(language: string | undefined): JobWords {
  const known = language !== undefined && LANGUAGES.includes(language);
  const words = known ? paperWordsOf(language) : null;
  return words?.ok === true ? words.value : ENGLISH_WORDS;
}

/** What an alarm expected and saw stands in the journal in the words of the record. */
const phrasePairs = ({ phrases, names }: Catalogue): readonly Pair[] => [
  ...Object.entries(RECORD_PHRASES).map(
    ([key, english]): Pair => [english, phrases[key as keyof typeof phrases]],
  ),
  // A journal calls a button as the English display does.
  ...BUTTONS.map((button): Pair => [ENGLISH.names[button], names[button]]),
];
