/**
 * A language made for tests: every text of the English files in brackets, so that what stands
 * outside them came from anywhere but the folder.
 */
import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import certificate from '../../../src/panel/catalogues/en/certificate.json' with { type: 'json' };
import claims from '../../../src/panel/catalogues/en/claims.json' with { type: 'json' };
import display from '../../../src/panel/catalogues/en/display.json' with { type: 'json' };
import drawing from '../../../src/panel/catalogues/en/drawing.json' with { type: 'json' };
import guided from '../../../src/panel/catalogues/en/guided.json' with { type: 'json' };
import record from '../../../src/panel/catalogues/en/record.json' with { type: 'json' };
import report from '../../../src/panel/catalogues/en/report.json' with { type: 'json' };
import terminal from '../../../src/panel/catalogues/en/terminal.json' with { type: 'json' };

const IN_BRACKETS = { certificate, claims, drawing, record, report, terminal };
const PLAIN_KEYS = ['schema', 'language', 'decimal'];

const bracketed = (text: string): string =>
  text.replaceAll(/\{\w+\}|[^{}]+/g, (part) => (part.startsWith('{') ? part : `[${part}]`));

function made(value: unknown, key = ''): unknown {
  if (key === 'called') return 'by-name';
  if (typeof value === 'string') return PLAIN_KEYS.includes(key) ? value : bracketed(value);
  if (Array.isArray(value)) return value.map((one) => made(one));
  return Object.fromEntries(Object.entries(value as object).map(([k, one]) => [k, made(one, k)]));
}

/** The display has no room for brackets: its words stay English. */
export function madeLanguage(changed: Readonly<Record<string, unknown>> = {}): string {
  const folder = join(mkdtempSync(join(tmpdir(), 'meniscus-language-')), 'xx');
  mkdirSync(folder);
  const papers = Object.entries(IN_BRACKETS).map(([use, words]) => [use, made(words)] as const);
  const files = { ...Object.fromEntries(papers), display, guided, ...changed };
  for (const [use, words] of Object.entries(files)) {
    writeFileSync(join(folder, `${use}.json`), JSON.stringify(words));
  }
  return folder;
}

/** Words outside the brackets. */
export const outsideWords = (text: string): readonly string[] =>
  text.replaceAll(/\[[^\]]*\]/g, ' ').match(/[\p{L}]{2,}/gu) ?? [];
