/** Reads the named care file, or the built-in one. */
import { type CareSettings, careSettingsSchema } from '../../care/care-settings.ts';
import type { Checked } from '../../core/settings.ts';
import builtInCare from '../defaults/care.json' with { type: 'json' };
import { readChecked } from './read-settings.ts';

const BUILT_IN = { name: 'built-in care.json', content: builtInCare };

/** The settings, and the file as given. */
export const readCareFile = (path: string | undefined) =>
  readChecked(careSettingsSchema, path ?? BUILT_IN);

export function loadCareSettings(path: string | undefined): Checked<CareSettings> {
  const read = readCareFile(path);
  return read.ok ? { ok: true, value: read.value.settings } : read;
}
