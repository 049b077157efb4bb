/**
 * The words of a record's papers and of a run's lines: of a built-in language, or of a shop's own
 * folder. Every key is checked before a job, so that no certificate lacks a sentence. A language
 * that is one file for the display alone has English papers.
 */
import type { z } from 'zod';
import { BUTTONS } from '../../core/frame.ts';
import { schemaLike } from '../../core/language-file.ts';
import { RECORD_PHRASES } from '../../core/phrases.ts';
import type { Pair } from '../../core/rewording.ts';
import type { Checked } from '../../core/settings.ts';
import { ENGLISH_CERTIFICATE } from '../../document/certificate/certificate-words.ts';
import type { Catalogue } from '../../panel/catalogue.ts';
import { ENGLISH_CLAIMS, ENGLISH_RECORD, tongueOf } from '../../report/language.ts';
import { LANGUAGES, type WordsUse, wordsOf } from './languages.ts';
import { catalogueOf, ENGLISH } from './load-catalogue.ts';
import { readChecked } from './read-settings.ts';
import { ENGLISH_WORDS, type JobWords } from './terminal-words.ts';

const CERTIFICATE = schemaLike(ENGLISH_CERTIFICATE);
const CLAIMS = schemaLike(ENGLISH_CLAIMS);
const RECORD = schemaLike(ENGLISH_RECORD);
const DRAWING = schemaLike(ENGLISH_WORDS.drawing);
const REPORT = schemaLike(ENGLISH_WORDS.report);
const TERMINAL = schemaLike(ENGLISH_WORDS.terminal);

/** `en`, `es`, or the folder of a language. */
export function paperWordsOf(nameOrPath: string): Checked<JobWords> {
  const display = catalogueOf(nameOrPath);
  if (!display.ok) return display;
  if (nameOrPath === 'en' || wordsOf(nameOrPath, 'certificate') === null) {
    return { ok: true, value: ENGLISH_WORDS };
  }
  const certificate = read(CERTIFICATE, nameOrPath, 'certificate');
  const claims = read(CLAIMS, nameOrPath, 'claims');
  const record = read(RECORD, nameOrPath, 'record');
  const drawing = read(DRAWING, nameOrPath, 'drawing');
  const report = read(REPORT, nameOrPath, 'report');
  const terminal = read(TERMINAL, nameOrPath, 'terminal');
  const all = [certificate, claims, drawing, record, report, terminal];
  if (!certificate.ok || !claims.ok || !drawing.ok || !record.ok || !report.ok || !terminal.ok) {
    const problems = all.flatMap((one) => (one.ok ? [] : one.problems));
    return { ok: false, problems };
  }
  const phrases = phrasePairs(display.value.catalogue);
  return {
    ok: true,
    value: {
      certificate: certificate.value,
      claims: claims.value,
      drawing: drawing.value,
      record: record.value,
      report: report.value,
      terminal: terminal.value,
      tongue: tongueOf(claims.value, record.value, phrases),
    },
  };
}

/** For a record that is worded later: of its own language where that is built in. */
export function paperWordsOfRecord(language: string | undefined): JobWords {
  const known = language !== undefined && LANGUAGES.includes(language);
  const words = known ? paperWordsOf(language) : null;
  return words?.ok === true ? words.value : ENGLISH_WORDS;
}

function read<T>(schema: z.ZodType<T>, nameOrPath: string, use: WordsUse): Checked<T> {
  const source = wordsOf(nameOrPath, use);
  if (source === null) return { ok: false, problems: [] };
  const found = readChecked(schema, source);
  return found.ok ? { ok: true, value: found.value.settings } : found;
}

/** What an alarm expected and saw stands in the journal in the words of the record. */
const phrasePairs = ({ phrases, names }: Catalogue): readonly Pair[] => [
  ...Object.entries(RECORD_PHRASES).map(
    ([key, english]): Pair => [english, phrases[key as keyof typeof phrases]],
  ),
  // A journal calls a button as the English display does.
  ...BUTTONS.map((button): Pair => [ENGLISH.names[button], names[button]]),
];
