/**
 * Photographs for a certificate: named by the person, or found in the job's folder. Only a picture
 * that a page can show whole is accepted; any other is reported by its path before a page is
 * written.
 */
import { existsSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { Checked } from '../../core/settings.ts';
import type { PhotoFact } from '../../document/facts.ts';

/** Every page embeds the photograph unchanged. */
const MOST_BYTES = 12_000_000;

const SIGNATURES = [
  { type: 'image/jpeg', begins: [0xff, 0xd8, 0xff] },
  { type: 'image/png', begins: [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a] },
] as const;

const ENDINGS = ['jpg', 'jpeg', 'png'] as const;

/** The job folder's photograph; undefined where it has none. */
export const photoInFolder = (folder: string, when: 'before' | 'after'): string | undefined =>
  ENDINGS.map((ending) => join(folder, `photo-${when}.${ending}`)).find((path) => existsSync(path));

export async function readPhoto(path: string | undefined): Promise<Checked<PhotoFact | null>> {
  if (path === undefined) return { ok: true, value: null };
  const refused = (value: string, accepted: string): Checked<PhotoFact> => ({
    ok: false,
    problems: [{ file: path, path: '', value, accepted }],
  });
  try {
    const { size } = statSync(path);
    if (size > MOST_BYTES)
      return refused(`${size} bytes`, `a picture of up to ${MOST_BYTES} bytes`);
    const bytes = readFileSync(path);
    const type = SIGNATURES.find(({ begins }) =>
      begins.every((byte, i) => bytes[i] === byte),
    )?.type;
    if (type === undefined) return refused('no JPEG and no PNG', 'a JPEG or PNG picture');
    // Loaded only where there is a picture to check.
    const { pictureProblem } = await import('../../document/picture-problem.ts');
    const problem = pictureProblem(bytes);
    if (problem !== null) return refused(`broken (${problem})`, 'a whole JPEG or PNG picture');
    return { ok: true, value: { bytes, type } };
  } catch (error) {
    const value = `not readable (${error instanceof Error ? error.message : String(error)})`;
    return refused(value, 'a JPEG or PNG picture that exists and may be read');
  }
}
