/**
 * Personal data of one entry, in a separate file, so that the data can be removed while the chain
 * keeps only a salted hash. The salt prevents anyone from guessing a name from that hash once the
 * file is gone. The caller decides which fields there are; verify.ts checks the file against its
 * hash.
 */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { z } from 'zod';
import { canonicalJson, sha256Of } from '../../core/canonical-json.ts';
import { makePrivateFolder, writePrivate } from '../../journal/private-file.ts';
import type { ChainEntry } from './chain-entry.ts';
import { personalPath } from './paths.ts';

export interface Personal {
  readonly salt: string;
  /** Technician, customer and vehicle, or the person who did something, by field name. */
  readonly fields: Readonly<Record<string, string>>;
}

const personalSchema: z.ZodType<Personal> = z.strictObject({
  salt: z.string().min(16),
  fields: z.record(z.string(), z.string()),
});

export const personalSha256Of = ({ salt, fields }: Personal): string =>
  sha256Of(canonicalJson({ salt, fields }));

/** Throws where the file cannot be written, or exists although it should be new. */
export function writePersonal(
  path: string,
  { salt, fields }: Personal,
  how: 'new' | 'instead',
): void {
  makePrivateFolder(dirname(path));
  writePrivate(path, `${canonicalJson({ salt, fields })}\n`, how === 'new' ? 'wx' : 'w');
}

/** The fields of an entry, only where they match its commitment; any mismatch is left to verify. */
export function personalFieldsOf(
  folder: string,
  entry: ChainEntry,
): Readonly<Record<string, string>> | null {
  if (entry.personalSha256 === null) return null;
  const found = readPersonal(personalPath(folder, entry));
  return found.state === 'there' && found.sha256 === entry.personalSha256
    ? found.personal.fields
    : null;
}

const bytesSha256 = (bytes: Buffer): string => createHash('sha256').update(bytes).digest('hex');

export type PersonalFound =
  | { readonly state: 'there'; readonly personal: Personal; readonly sha256: string }
  | { readonly state: 'missing' }
  /** The file exists, but this program did not write it like this. */
  | { readonly state: 'unreadable'; readonly sha256: string };

/** The hash covers the file's own bytes without the line feed: every byte counts. */
export function readPersonal(path: string): PersonalFound {
  let bytes: Buffer;
  try {
    bytes = readFileSync(path);
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') {
      return { state: 'missing' };
    }
    return { state: 'unreadable', sha256: bytesSha256(Buffer.alloc(0)) };
  }
  const text = bytes.toString('utf8');
  const sha256 = bytesSha256(text.endsWith('\n') ? bytes.subarray(0, -1) : bytes);
  try {
    const parsed = personalSchema.safeParse(JSON.parse(text));
    const whole = parsed.success && text === `${canonicalJson(parsed.data)}\n`;
    return whole
      ? { state: 'there', personal: parsed.data, sha256 }
      : { state: 'unreadable', sha256 };
  } catch {
    return { state: 'unreadable', sha256 };
  }
}
