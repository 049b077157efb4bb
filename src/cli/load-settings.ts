/**
 * Reads the three settings files, checks each and then one against another, and returns either the
 * configuration of the job or every problem found. Nothing is started by it.
 */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { z } from 'zod';
import type { JobConfig } from '../controller-state.ts';
import { jobSheetSchema } from '../intake/job-sheet.ts';
import { profileSchema } from '../procedure/profile.ts';
import { type Checked, checkSettings, type SettingsProblem } from '../settings.ts';
import { profileOverLimits, unitSettingsSchema } from '../unit-settings.ts';

export interface SettingsPaths {
  readonly unit: string;
  readonly profile: string;
  readonly job: string;
}

const defaultPath = (name: string): string =>
  fileURLToPath(new URL(`./defaults/${name}`, import.meta.url));

export const DEFAULT_PATHS: SettingsPaths = {
  unit: defaultPath('unit.json'),
  profile: defaultPath('profile.json'),
  job: defaultPath('job.json'),
};

export interface LoadedSettings {
  readonly config: JobConfig;
  /** The files as they were read, for the record. */
  readonly inputs: { readonly unit: unknown; readonly profile: unknown; readonly job: unknown };
}

export function loadSettings(paths: SettingsPaths): Checked<LoadedSettings> {
  const unit = readChecked(unitSettingsSchema, paths.unit);
  const profile = readChecked(profileSchema, paths.profile);
  const job = readChecked(jobSheetSchema, paths.job);
  if (!unit.ok || !profile.ok || !job.ok) {
    return { ok: false, problems: [unit, profile, job].flatMap((r) => (r.ok ? [] : r.problems)) };
  }
  const over = profileOverLimits(profile.value.settings, unit.value.settings, paths.profile);
  if (over.length > 0) return { ok: false, problems: over };
  return {
    ok: true,
    value: {
      config: {
        unit: unit.value.settings,
        profile: profile.value.settings,
        job: job.value.settings,
      },
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

function readChecked<T>(
  schema: z.ZodType<T>,
  file: string,
): Checked<{ readonly settings: T; readonly raw: unknown }> {
  const read = readJson(file);
  if (!read.ok) return read;
  const checked = checkSettings(schema, read.value, file);
  return checked.ok ? { ok: true, value: { settings: checked.value, raw: read.value } } : checked;
}

export function readJson(file: string): Checked<unknown> {
  const fail = (value: string, accepted: string): Checked<unknown> => {
    const problem: SettingsProblem = { file, path: '', value, accepted };
    return { ok: false, problems: [problem] };
  };
  let words: string;
  try {
    words = readFileSync(file, 'utf8');
  } catch (error) {
    return fail(`not readable (${reasonOf(error)})`, 'a file that exists and may be read');
  }
  try {
    return { ok: true, value: JSON.parse(words) };
  } catch (error) {
    return fail(`not JSON (${reasonOf(error)})`, 'JSON text');
  }
}

function reasonOf(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  return 'code' in error ? `${error.code}` : error.message;
}
