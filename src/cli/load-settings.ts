/**
 * Reads the three settings files, checks each and then one against another, and returns either the
 * configuration of the job or every problem found. Nothing is started by it.
 */
import { readFileSync } from 'node:fs';
import type { z } from 'zod';
import type { JobConfig } from '../controller-state.ts';
import { jobSheetSchema } from '../intake/job-sheet.ts';
import { profileSchema } from '../procedure/profile.ts';
import { type Checked, checkSettings, type SettingsProblem } from '../settings.ts';
import { profileOverLimits, unitSettingsSchema } from '../unit-settings.ts';
import builtInJob from './defaults/job.json' with { type: 'json' };
import builtInProfile from './defaults/profile.json' with { type: 'json' };
import builtInUnit from './defaults/unit.json' with { type: 'json' };

/** Files to read; where one is not named the built-in settings stand. */
export interface SettingsPaths {
  readonly unit?: string | undefined;
  readonly profile?: string | undefined;
  readonly job?: string | undefined;
}

export interface LoadedSettings {
  readonly config: JobConfig;
  /** The files as they were read, for the record. */
  readonly inputs: { readonly unit: unknown; readonly profile: unknown; readonly job: unknown };
}

export function loadSettings(paths: SettingsPaths): Checked<LoadedSettings> {
  const unit = readChecked(unitSettingsSchema, paths.unit, 'built-in unit.json', builtInUnit);
  const profile = readChecked(
    profileSchema,
    paths.profile,
    'built-in profile.json',
    builtInProfile,
  );
  const job = readChecked(jobSheetSchema, paths.job, 'built-in job.json', builtInJob);
  if (!unit.ok || !profile.ok || !job.ok) {
    return { ok: false, problems: [unit, profile, job].flatMap((r) => (r.ok ? [] : r.problems)) };
  }
  const over = profileOverLimits(profile.value.settings, unit.value.settings, profile.value.file);
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

interface ReadSettings<T> {
  readonly file: string;
  readonly settings: T;
  readonly raw: unknown;
}

function readChecked<T>(
  schema: z.ZodType<T>,
  path: string | undefined,
  builtInName: string,
  builtIn: unknown,
): Checked<ReadSettings<T>> {
  const file = path ?? builtInName;
  const read: Checked<unknown> = path === undefined ? { ok: true, value: builtIn } : readJson(path);
  if (!read.ok) return read;
  const checked = checkSettings(schema, read.value, file);
  return checked.ok
    ? { ok: true, value: { file, settings: checked.value, raw: read.value } }
    : checked;
}

function readJson(file: string): Checked<unknown> {
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
