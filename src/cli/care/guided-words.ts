/**
 * Finds the words of the guided procedures: built in, by the language of the display, or a file. A
 * language without words of its own falls back to English.
 */

import { readChecked } from '../../app/prepare/read-settings.ts';
import { type Checked, checkSettings } from '../../core/settings.ts';
import { type GuidedCatalogue, guidedCatalogueSchema } from '../../procedure/guided/catalogue.ts';
import spanish from '../../procedure/guided/catalogues/es.json' with { type: 'json' };
import { RECORD_WORDS } from '../../procedure/guided/record-words.ts';

export function guidedWordsOf(
  language: string,
  file: string | undefined,
): Checked<GuidedCatalogue> {
  if (file !== undefined) {
    const read = readChecked(guidedCatalogueSchema, file);
    return read.ok ? { ok: true, value: read.value.settings } : read;
  }
  if (language !== 'es') return { ok: true, value: RECORD_WORDS };
  return checkSettings(guidedCatalogueSchema, spanish, 'built-in guided words es.json');
}
