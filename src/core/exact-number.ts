/**
 * Numbers that survive JSON exactly. JSON has no NaN, no infinity and no minus zero, but a record
 * must be able to hold what a faulty board or a faulty calculation gave; these four are written as
 * words.
 */
import { z } from 'zod';

const WORDS = ['NaN', 'Infinity', '-Infinity', '-0'] as const;

/** A number, or one of the four words for values that JSON cannot represent. */
export const exactNumber = z.union(
  [z.number(), z.enum(WORDS).transform((word): number => Number(word))],
  { error: `a number, or one of ${WORDS.join(', ')}` },
);

export function encodeNumber(value: number): number | (typeof WORDS)[number] {
  if (Object.is(value, -0)) return '-0';
  if (Number.isNaN(value)) return 'NaN';
  if (Number.isFinite(value)) return value;
  return value > 0 ? 'Infinity' : '-Infinity';
}

/** JSON that preserves every number, for lines whose schema takes `exactNumber`. */
export const stringifyExactly = (value: unknown): string =>
  JSON.stringify(value, (_, field: unknown) =>
    typeof field === 'number' ? encodeNumber(field) : field,
  );
