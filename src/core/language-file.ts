/**
 * Checks a language's file against the English one: the same keys, no other, and each text with the
 * same figures. A count has a text for `one` and one for `other`; a language with more forms may
 * name them as Intl.PluralRules does.
 */
import { z } from 'zod';
import { placeholdersOf } from './phrases.ts';
import { isPlainText, PLAIN_TEXT } from './plain-text.ts';
import { schemaName } from './settings.ts';

/** BCP 47: `en`, `es`, `pt-BR`. */
export const languageTag = z
  .string()
  .regex(/^[a-z]{2,3}(-[A-Za-z0-9]{2,8})*$/, { error: 'a language tag like "en" or "pt-BR"' });
const FURTHER_FORMS = ['zero', 'two', 'few', 'many'];
const LONGEST = 1000;

/** Keys whose values are no sentences. */
const SPECIAL: Readonly<Record<string, (reference: string) => z.ZodType>> = {
  schema: (reference) => schemaName(reference),
  language: () => languageTag,
  called: () => z.enum(['by-id', 'by-name'], { error: '"by-id" or "by-name"' }),
  decimal: () => z.enum(['.', ','], { error: '"." or ","' }),
};

/** The file has the shape of the reference, which is its type. */
export const schemaLike = <T>(reference: T): z.ZodType<T> =>
  shapeOf(reference, true) as z.ZodType<T>;

function shapeOf(reference: unknown, atTop = false): z.ZodType {
  if (typeof reference === 'string') return sentence(reference);
  if (Array.isArray(reference)) {
    const [first = '', ...rest] = reference.map((one) => shapeOf(one)) as z.ZodType[];
    return z.tuple([first as z.ZodType, ...rest]);
  }
  const entries = Object.entries(reference as object).map(([key, inner]) => {
    const special = atTop ? SPECIAL[key] : undefined;
    return [key, special === undefined ? shapeOf(inner) : special(String(inner))] as const;
  });
  const { one, other } = reference as { readonly one?: unknown; readonly other?: unknown };
  const isCount = typeof one === 'string' && typeof other === 'string';
  const forms = isCount ? FURTHER_FORMS.map((form) => [form, shapeOf(other).optional()]) : [];
  return z.strictObject(Object.fromEntries([...entries, ...forms]));
}

function sentence(reference: string): z.ZodType {
  const needs = placeholdersOf(reference);
  const names = needs.map((name) => `{${name}}`).join(', ');
  const error = needs.length === 0 ? 'a text without {}' : `a text with ${names}`;
  const least = reference === '' ? 0 : 1;
  return z
    .string({ error })
    .min(least, { error })
    .max(LONGEST, { error: `at most ${LONGEST} characters` })
    .refine(isPlainText, { error: PLAIN_TEXT })
    .refine((own) => String(placeholdersOf(own)) === String(needs), { error });
}

/** A text for a count; `other` serves where a language names no form of its own. */
export type Counted = Readonly<Record<'one' | 'other', string>>;

export function countedForm(forms: Counted, count: number, language: string): string {
  const form = new Intl.PluralRules(language).select(count);
  return (forms as Readonly<Record<string, string | undefined>>)[form] ?? forms.other;
}
