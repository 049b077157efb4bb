/**
 * Personal data of a job, at the rim: salted and written beside the journal before it begins, and
 * kept out of texts that can never be removed. The job sheet decides which fields are personal, the
 * store how they are kept.
 */
import { randomBytes } from 'node:crypto';
import { sha256Of } from '../../core/canonical-json.ts';
import type { SettingsProblem } from '../../core/settings.ts';
import { jobPersonalPath } from '../../store/chain/paths.ts';
import { type Personal, personalSha256Of, writePersonal } from '../../store/chain/personal-file.ts';

type Fields = Readonly<Record<string, string>>;

/** Simulated runs derive the salt from the seed, so that the same inputs give the same records. */
export const saltFor = (seed: number | null): string =>
  seed === null
    ? randomBytes(16).toString('hex')
    : sha256Of(`salt of a simulated run, seed ${seed}`).slice(0, 32);

/** Writes the file and returns its hash for the journal's header. Throws where it cannot. */
export function keepJobPersonal(jobFolder: string, fields: Fields, salt: string): string {
  const personal: Personal = { salt, fields };
  writePersonal(jobPersonalPath(jobFolder), personal, 'new');
  return personalSha256Of(personal);
}

/** Shorter words occur in many texts by chance. */
const LEAST_LENGTH = 3;

/** Case and accents do not matter: `Jose` names `José`. */
const folded = (text: string): string =>
  text
    .normalize('NFKD')
    .replaceAll(/\p{Mark}/gu, '')
    .toLowerCase();

/** The personal fields that a text repeats. */
export const namesIn = (text: string, fields: Fields): readonly string[] =>
  Object.entries(fields)
    .filter(([, value]) => value.length >= LEAST_LENGTH)
    .filter(([, value]) => folded(text).includes(folded(value)))
    .map(([name]) => name);

const WORDS = /[\p{Letter}\p{Number}]+/gu;
const wordsOf = (text: string): readonly string[] => text.match(WORDS) ?? [];

/** A name, in scripts that have capitals; a role such as "the office" is none. */
const NAME = /^[\p{Lu}\p{Lo}]/u;

const marksOf = (text: string): string => wordsOf(folded(text)).join('');

/**
 * The same, and those of which a text repeats one name: a surname alone names somebody too. A
 * registration mark counts as a whole, however it is spaced.
 */
export function partsOfNamesIn(text: string, fields: Fields): readonly string[] {
  const said = new Set(wordsOf(folded(text)));
  const repeats = (name: string, value: string): boolean =>
    name.startsWith('vehicle')
      ? marksOf(value).length >= LEAST_LENGTH && marksOf(text).includes(marksOf(value))
      : wordsOf(value)
          .filter((word) => NAME.test(word) && word.length >= LEAST_LENGTH)
          .some((word) => said.has(folded(word)));
  const parts = Object.entries(fields).filter(([name, value]) => repeats(name, value));
  return [...new Set([...namesIn(text, fields), ...parts.map(([name]) => name)])];
}

/** Reference and notes stay in the journal for good, so they may not repeat removable data. */
export function namesInText(
  people: Fields,
  job: { readonly reference: string; readonly notes: string },
  file: string,
): readonly SettingsProblem[] {
  return (['reference', 'notes'] as const).flatMap((path) =>
    namesIn(job[path], people).map((name) => ({
      file,
      path,
      value: JSON.stringify(job[path]),
      accepted: `a text without the ${name}: it stays in the journal for good, only ${name} can be removed`,
    })),
  );
}
