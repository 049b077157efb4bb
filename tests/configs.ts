/** The project's own default settings, parsed, for tests that need a whole configuration. */
import { type LoadedSettings, loadSettings } from '../src/app/prepare/load-settings.ts';
import type { RepairConfig } from '../src/procedure/repair/repair-state.ts';

function load(): LoadedSettings {
  const loaded = loadSettings({});
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.problems));
  return loaded.value;
}

export const DEFAULT_SETTINGS: LoadedSettings = load();
export const DEFAULT_CONFIG: RepairConfig = DEFAULT_SETTINGS.config;
export const DEFAULT_UNIT = DEFAULT_CONFIG.unit;
export const DEFAULT_PROFILE = DEFAULT_CONFIG.profile;
