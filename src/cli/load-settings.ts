/**
 * Reads the three settings files, checks each and then one against another, and returns either the
 * configuration of the job or every problem found. Nothing is started by it.
 */
import type { JobConfig } from '../controller-state.ts';
import { jobSheetSchema } from '../intake/job-sheet.ts';
import { jobBeyondLamp } from '../job-target.ts';
import { profileSchema } from '../procedure/profile.ts';
import { type Checked, checkSettings } from '../settings.ts';
import { profileOverLimits, unitSettingsSchema } from '../unit-settings.ts';
import builtInJob from './defaults/job.json' with { type: 'json' };
import builtInProfile from './defaults/profile.json' with { type: 'json' };
import builtInUnit from './defaults/unit.json' with { type: 'json' };
import { readChecked } from './read-settings.ts';

/** Files to read; where one is not named the built-in settings stand. */
export interface SettingsPaths {
  readonly unit?: string | undefined;
  readonly profile?: string | undefined;
  readonly job?: string | undefined;
}

const BUILT_IN = {
  unit: { name: 'built-in unit.json', content: builtInUnit },
  profile: { name: 'built-in profile.json', content: builtInProfile },
  job: { name: 'built-in job.json', content: builtInJob },
} as const;

export interface LoadedSettings {
  readonly config: JobConfig;
  /** The files as they were read, for the record. */
  readonly inputs: { readonly unit: unknown; readonly profile: unknown; readonly job: unknown };
}

export function loadSettings(paths: SettingsPaths): Checked<LoadedSettings> {
  const unit = readChecked(unitSettingsSchema, paths.unit ?? BUILT_IN.unit);
  const profile = readChecked(profileSchema, paths.profile ?? BUILT_IN.profile);
  const job = readChecked(jobSheetSchema, paths.job ?? BUILT_IN.job);
  if (!unit.ok || !profile.ok || !job.ok) {
    return { ok: false, problems: [unit, profile, job].flatMap((r) => (r.ok ? [] : r.problems)) };
  }
  const over = profileOverLimits(profile.value.settings, unit.value.settings, profile.value.file);
  if (over.length > 0) return { ok: false, problems: over };
  const config: JobConfig = {
    unit: unit.value.settings,
    profile: profile.value.settings,
    job: job.value.settings,
  };
  const beyond = jobBeyondLamp(config, job.value.file);
  if (beyond.length > 0) return { ok: false, problems: beyond };
  return {
    ok: true,
    value: {
      config,
      inputs: { unit: unit.value.raw, profile: profile.value.raw, job: job.value.raw },
    },
  };
}

/** Checks settings that came from elsewhere than files: the header of a journal. */
export function settingsFromInputs(
  inputs: LoadedSettings['inputs'],
  file: string,
): Checked<JobConfig> {
  const unit = checkSettings(unitSettingsSchema, inputs.unit, `${file}: unit`);
  const profile = checkSettings(profileSchema, inputs.profile, `${file}: profile`);
  const job = checkSettings(jobSheetSchema, inputs.job, `${file}: job`);
  if (!unit.ok || !profile.ok || !job.ok) {
    return { ok: false, problems: [unit, profile, job].flatMap((r) => (r.ok ? [] : r.problems)) };
  }
  return { ok: true, value: { unit: unit.value, profile: profile.value, job: job.value } };
}
