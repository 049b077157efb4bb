/**
 * Reads and checks one settings file, or checks built-in settings instead; every problem is
 * returned as data, never thrown.
 */
import { readFileSync } from 'node:fs';
import type { z } from 'zod';
import {
  type Checked,
  checkSettings,
  type SettingsProblem,
  unplainProblems,
} from '../../core/settings.ts';

export interface BuiltIn {
  readonly name: string;
  readonly content: unknown;
}

/** A file, or settings that come from elsewhere under a name of their own. */
export type Source = string | BuiltIn;

export const sourceName = (source: Source): string =>
  typeof source === 'string' ? source : source.name;

export interface ReadSettings<T> {
  readonly file: string;
  readonly settings: T;
  readonly raw: unknown;
}

/** The file at `source`, or built-in settings. */
export function readChecked<T>(schema: z.ZodType<T>, source: Source): Checked<ReadSettings<T>> {
  const [file, read]: [string, Checked<unknown>] =
    typeof source === 'string'
      ? [source, readJson(source)]
      : [source.name, { ok: true, value: source.content }];
  if (!read.ok) return read;
  const checked = checkSettings(schema, read.value, file);
  return checked.ok
    ? { ok: true, value: { file, settings: checked.value, raw: read.value } }
    : checked;
}

/** Some editors put it at the start of a file. */
const BYTE_ORDER_MARK = '\ufeff';

export function readJson(file: string): Checked<unknown> {
  const fail = (value: string, accepted: string): Checked<unknown> => {
    const problem: SettingsProblem = { file, path: '', value, accepted };
    return { ok: false, problems: [problem] };
  };
  let words: string;
  try {
    words = readFileSync(file, 'utf8');
  } catch (error) {
    return fail(`not readable (${reasonOf(error)})`, 'a file that exists and may be read');
  }
  let value: unknown;
  try {
    value = JSON.parse(words.startsWith(BYTE_ORDER_MARK) ? words.slice(1) : words);
  } catch (error) {
    return fail(`not JSON (${reasonOf(error)})`, 'JSON text');
  }
  const problems = unplainProblems(value, file);
  return problems.length > 0 ? { ok: false, problems } : { ok: true, value };
}

function reasonOf(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  return 'code' in error ? `${error.code}` : error.message;
}
