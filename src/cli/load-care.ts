/** Reads the care file that is named, or the built-in one. */
import { type CareSettings, careSettingsSchema } from '../care/care-settings.ts';
import type { Checked } from '../settings.ts';
import builtInCare from './defaults/care.json' with { type: 'json' };
import { readChecked } from './read-settings.ts';

const BUILT_IN = { name: 'built-in care.json', content: builtInCare };

export function loadCareSettings(path: string | undefined): Checked<CareSettings> {
  const read = readChecked(careSettingsSchema, path ?? BUILT_IN);
  return read.ok ? { ok: true, value: read.value.settings } : read;
}
