/**
 * Where the words of a language come from: a built-in one by its name, or a shop's own folder. A
 * language is one folder, with one file a use.
 */

import { statSync } from 'node:fs';
import { join } from 'node:path';
import englishCertificate from '../../panel/catalogues/en/certificate.json' with { type: 'json' };
import englishClaims from '../../panel/catalogues/en/claims.json' with { type: 'json' };
import englishDisplay from '../../panel/catalogues/en/display.json' with { type: 'json' };
import englishDrawing from '../../panel/catalogues/en/drawing.json' with { type: 'json' };
import englishGuided from '../../panel/catalogues/en/guided.json' with { type: 'json' };
import englishRecord from '../../panel/catalogues/en/record.json' with { type: 'json' };
import englishReport from '../../panel/catalogues/en/report.json' with { type: 'json' };
import englishTerminal from '../../panel/catalogues/en/terminal.json' with { type: 'json' };
import spanishCertificate from '../../panel/catalogues/es/certificate.json' with { type: 'json' };
import spanishClaims from '../../panel/catalogues/es/claims.json' with { type: 'json' };
import spanishDisplay from '../../panel/catalogues/es/display.json' with { type: 'json' };
import spanishDrawing from '../../panel/catalogues/es/drawing.json' with { type: 'json' };
import spanishGuided from '../../panel/catalogues/es/guided.json' with { type: 'json' };
import spanishRecord from '../../panel/catalogues/es/record.json' with { type: 'json' };
import spanishReport from '../../panel/catalogues/es/report.json' with { type: 'json' };
import spanishTerminal from '../../panel/catalogues/es/terminal.json' with { type: 'json' };
import type { Source } from './read-settings.ts';

export type WordsUse =
  | 'display'
  | 'drawing'
  | 'guided'
  | 'certificate'
  | 'claims'
  | 'record'
  | 'report'
  | 'terminal';

const BUILT_IN: Readonly<Record<string, Readonly<Record<WordsUse, unknown>>>> = {
  en: {
    display: englishDisplay,
    drawing: englishDrawing,
    guided: englishGuided,
    certificate: englishCertificate,
    claims: englishClaims,
    record: englishRecord,
    report: englishReport,
    terminal: englishTerminal,
  },
  es: {
    display: spanishDisplay,
    drawing: spanishDrawing,
    guided: spanishGuided,
    certificate: spanishCertificate,
    claims: spanishClaims,
    record: spanishRecord,
    report: spanishReport,
    terminal: spanishTerminal,
  },
};
export const LANGUAGES: readonly string[] = Object.keys(BUILT_IN);

export const builtInWords = (language: string): Readonly<Record<WordsUse, unknown>> | null =>
  BUILT_IN[language] ?? null;

/**
 * The words of a built-in language, of a folder, or of the file of a display's words alone; null
 * where there are none for this use.
 */
export function wordsOf(nameOrPath: string, use: WordsUse): Source | null {
  const builtIn = BUILT_IN[nameOrPath];
  if (builtIn !== undefined) {
    return { name: `built-in ${nameOrPath}/${use}.json`, content: builtIn[use] };
  }
  if (nameOrPath.endsWith('.json')) return use === 'display' ? nameOrPath : null;
  const isFolder = statSync(nameOrPath, { throwIfNoEntry: false })?.isDirectory() === true;
  return isFolder ? join(nameOrPath, `${use}.json`) : null;
}
