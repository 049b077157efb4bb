/**
 * Checks every settings file: zod schemas whose numbers state their range and unit, and one format
 * that reports all problems at once (file, path, value, what is accepted). The rooms that use
 * settings define them; the composition root reads files.
 */
import { z } from 'zod';
import { escapedValue, isPlainText, PLAIN_TEXT, unplainTexts } from './plain-text.ts';

/** A number in [min, max]; `unit` is only for the message. */
export function quantity(min: number, max: number, unit: string): z.ZodNumber {
  const error = `a number from ${min} to ${max}${unit === '' ? '' : ` ${unit}`}`;
  return z.number({ error }).min(min, { error }).max(max, { error });
}

/** A whole number in [min, max]. */
export function wholeNumber(min: number, max: number, unit: string): z.ZodNumber {
  const error = `a whole number from ${min} to ${max}${unit === '' ? '' : ` ${unit}`}`;
  return z.number({ error }).int({ error }).min(min, { error }).max(max, { error });
}

/** A line of text that fits a report. */
export function text(maxLength: number): z.ZodString {
  const error = `a text of 1 to ${maxLength} characters`;
  return z
    .string({ error })
    .trim()
    .min(1, { error })
    .max(maxLength, { error })
    .refine(isPlainText, { error: PLAIN_TEXT });
}

/** Texts in the data that are not plain, whether or not a schema would check them. */
export const unplainProblems = (input: unknown, file: string): readonly SettingsProblem[] =>
  unplainTexts(input).map(({ path, value }) => ({
    file,
    path: pathText(path),
    value: valueText(value),
    accepted: PLAIN_TEXT,
  }));

/** One of a list of words. */
export function choice<const T extends readonly [string, ...string[]]>(words: T) {
  return z.enum(words, { error: `one of ${words.join(', ')}` });
}

/** The first field of every settings file, so that a file of another kind is recognised at once. */
export function schemaName<const T extends string>(name: T) {
  return z.literal(name, { error: `"${name}"` });
}

export interface SettingsProblem {
  readonly file: string;
  /** Dotted path inside the file; empty for the file as a whole. */
  readonly path: string;
  /** The offending value as JSON, or 'missing'. */
  readonly value: string;
  readonly accepted: string;
}

export type Checked<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problems: readonly SettingsProblem[] };

/** Checks unknown data against a schema; reports every problem, not only the first. */
export function checkSettings<T>(schema: z.ZodType<T>, input: unknown, file: string): Checked<T> {
  const parsed = schema.safeParse(input);
  if (parsed.success) return { ok: true, value: parsed.data };
  return {
    ok: false,
    problems: parsed.error.issues.flatMap((issue) => problemsOf(issue, input, file)),
  };
}

export function problemLine({ file, path, value, accepted }: SettingsProblem): string {
  return escapedValue(
    `${file}: ${path === '' ? 'the file' : path} is ${value}; accepted: ${accepted}`,
  );
}

function problemsOf(issue: z.core.$ZodIssue, input: unknown, file: string): SettingsProblem[] {
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => ({
      file,
      path: pathText([...issue.path, key]),
      value: valueText(valueAt(input, [...issue.path, key])),
      accepted: 'no such field (check its spelling and its unit)',
    }));
  }
  const wrongKind = issue.code === 'invalid_type' && issue.message.startsWith('Invalid input');
  return [
    {
      file,
      path: pathText(issue.path),
      value: valueText(valueAt(input, issue.path)),
      accepted: wrongKind ? `${article(issue.expected)} ${issue.expected}` : issue.message,
    },
  ];
}

const article = (word: string): string => (/^[aeiou]/.test(word) ? 'an' : 'a');

const pathText = (path: readonly PropertyKey[]): string => path.map(String).join('.');

/** The value at a path inside data; undefined where there is none. */
export function valueAt(input: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (value, key) =>
      typeof value === 'object' && value !== null
        ? (value as Record<PropertyKey, unknown>)[key]
        : undefined,
    input,
  );
}

function valueText(value: unknown): string {
  if (value === undefined) return 'missing';
  const json = JSON.stringify(value) ?? String(value);
  return json.length > 60 ? `${json.slice(0, 57)}...` : json;
}
