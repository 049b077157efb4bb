/**
 * JSON in one spelling only (sorted keys, no spaces) and its SHA-256, so that files with equal
 * contents have equal hashes whatever their layout. The callers decide what is hashed. The hash
 * reveals changes; it is no signature and proves nothing about the author.
 */
import { createHash } from 'node:crypto';

/** Encodes a value in the only spelling; object keys are sorted by code unit. */
export function canonicalJson(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(',')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value) ?? 'null';
  const fields = Object.entries(value)
    .filter(([, field]) => field !== undefined)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([key, field]) => `${JSON.stringify(key)}:${canonicalJson(field)}`);
  return `{${fields.join(',')}}`;
}

/** Lower-case hexadecimal SHA-256 of a text in UTF-8. */
export const sha256Of = (text: string): string =>
  createHash('sha256').update(text, 'utf8').digest('hex');
