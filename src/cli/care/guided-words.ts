/**
 * Finds the words of the guided procedures: of the language of the display, built in or a folder, or
 * a file. A language that is one file for the display alone falls back to English.
 */

import { wordsOf } from '../../app/prepare/languages.ts';
import { readChecked } from '../../app/prepare/read-settings.ts';
import type { Checked } from '../../core/settings.ts';
import { type GuidedCatalogue, guidedCatalogueSchema } from '../../procedure/guided/catalogue.ts';
import { RECORD_WORDS } from '../../procedure/guided/record-words.ts';

export function guidedWordsOf(
  language: string,
  file: string | undefined,
): Checked<GuidedCatalogue> {
  const source = file ?? wordsOf(language, 'guided');
  if (source === null) return { ok: true, value: RECORD_WORDS };
  const read = readChecked(guidedCatalogueSchema, source);
  return read.ok ? { ok: true, value: read.value.settings } : read;
}
