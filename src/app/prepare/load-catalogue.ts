/**
 * Finds the display's words: a built-in catalogue, by its language, or a shop's own folder or file. Its
 * contents and its fit on the display are checked, so that a missing word is refused before a job
 * and not noticed during an alarm.
 */

import { canonicalJson, sha256Of } from '../../core/canonical-json.ts';
import type { Checked } from '../../core/settings.ts';
import { DAMAGE_TYPES } from '../../intake/sheet/job-sheet.ts';
import { type Catalogue, catalogueSchemaFor } from '../../panel/catalogue.ts';
import { catalogueMisfits } from '../../panel/catalogue-fit.ts';
import builtInEnglish from '../../panel/catalogues/en/display.json' with { type: 'json' };
import { ALARM_TABLE } from '../../safety/alarm-table.ts';
import { LANGUAGES, wordsOf } from './languages.ts';
import { readChecked } from './read-settings.ts';

const schema = catalogueSchemaFor({
  alarms: ALARM_TABLE.map(({ id }) => id),
  damage: DAMAGE_TYPES,
});

/** The words for replay and tests; the language affects no decision. */
export const ENGLISH: Catalogue = schema.parse(builtInEnglish);

export interface LoadedCatalogue {
  readonly catalogue: Catalogue;
  /** For the header of a journal: the words that were on the display. */
  readonly note: { readonly language: string; readonly sha256: string };
}

/** `en`, `es`, the folder of a language, or the path of a display's catalogue that ends in .json. */
export function catalogueOf(nameOrPath: string): Checked<LoadedCatalogue> {
  const source = wordsOf(nameOrPath, 'display');
  if (source === null) {
    const accepted = `${LANGUAGES.join(', ')}, the folder of a language, or a catalogue (.json)`;
    const value = JSON.stringify(nameOrPath);
    return { ok: false, problems: [{ file: 'language', path: '', value, accepted }] };
  }
  const read = readChecked(schema, source);
  if (!read.ok) return read;
  const { file, settings: catalogue, raw } = read.value;
  const misfits = catalogueMisfits(catalogue, ENGLISH);
  if (misfits.length > 0) {
    return { ok: false, problems: misfits.map((misfit) => ({ file, ...misfit })) };
  }
  const sha256 = sha256Of(canonicalJson(raw));
  return { ok: true, value: { catalogue, note: { language: catalogue.language, sha256 } } };
}
