/**
 * Reads the three settings files, checks each and then one against another, and returns either the
 * job's configuration or every problem found. It starts nothing.
 */

import { profileOverLimits, unitSettingsSchema } from '../../control/unit-settings.ts';
import { madePlain } from '../../core/plain-text.ts';
import { type Checked, checkSettings } from '../../core/settings.ts';
import { jobFileSchema, jobSheetSchema, withoutPeople } from '../../intake/sheet/job-sheet.ts';
import { withTargetsAtResin } from '../../journal/older-profile.ts';
import { profileSchema } from '../../procedure/profile.ts';
import { jobBeyondLamp } from '../../procedure/repair/cure/job-target.ts';
import type { RepairConfig } from '../../procedure/repair/repair-state.ts';
import builtInJob from '../defaults/job.json' with { type: 'json' };
import builtInProfile from '../defaults/profile.json' with { type: 'json' };
import builtInUnit from '../defaults/unit.json' with { type: 'json' };
import { type Bottle, jobWithBottles } from './job-bottle.ts';
import { catalogueOf, ENGLISH, type LoadedCatalogue } from './load-catalogue.ts';
import { paperWordsOf } from './paper-words.ts';
import { namesInText } from './personal.ts';
import { readChecked, type Source } from './read-settings.ts';
import type { JobWords } from './terminal-words.ts';

/** Files to read; the built-in settings apply where none is named. */
export interface SettingsPaths {
  readonly unit?: string | undefined;
  readonly profile?: Source | undefined;
  readonly job?: Source | undefined;
  /** Language of display and papers, instead of the unit's own: built in, or the file of a catalogue. */
  readonly language?: string | undefined;
}

const BUILT_IN = {
  unit: { name: 'built-in unit.json', content: builtInUnit },
  profile: { name: 'built-in profile.json', content: builtInProfile },
  job: { name: 'built-in job.json', content: builtInJob },
} as const;

export interface LoadedSettings {
  readonly config: RepairConfig;
  /** The files as read, for the record; the job's without its people. */
  readonly inputs: { readonly unit: unknown; readonly profile: unknown; readonly job: unknown };
  /** The words that were on the display. */
  readonly language: LoadedCatalogue['note'];
  /** The words of certificate and report, and of the lines on the terminal. */
  readonly papers: JobWords;
  /** The people of the job, by field: kept where they can be removed. */
  readonly people: Readonly<Record<string, string>>;
}

/** Bottles whose figures replace the resin fields of the job sheet. */
export interface Bottles {
  readonly fill: Bottle | null;
  readonly pit: Bottle | null;
}

export function loadSettings(
  paths: SettingsPaths,
  bottles: Bottles = { fill: null, pit: null },
): Checked<LoadedSettings> {
  const unit = readChecked(unitSettingsSchema, paths.unit ?? BUILT_IN.unit);
  const profile = readChecked(profileSchema, paths.profile ?? BUILT_IN.profile);
  const job = readJob(paths.job ?? BUILT_IN.job, bottles);
  if (!unit.ok || !profile.ok || !job.ok) {
    return { ok: false, problems: [unit, profile, job].flatMap((r) => (r.ok ? [] : r.problems)) };
  }
  const language = paths.language ?? unit.value.settings.language;
  const words = catalogueOf(language);
  if (!words.ok) return words;
  const papers = paperWordsOf(language);
  if (!papers.ok) return papers;
  const over = profileOverLimits(profile.value.settings, unit.value.settings, profile.value.file);
  if (over.length > 0) return { ok: false, problems: over };
  const { people } = job.value.settings;
  const { vehicle } = people as { readonly vehicle?: string };
  const config: RepairConfig = {
    unit: unit.value.settings,
    profile: profile.value.settings,
    job: job.value.settings.sheet,
    catalogue: words.value.catalogue,
    ...(vehicle !== undefined && { vehicle }),
  };
  const named = namesInText(people, config.job, job.value.file);
  if (named.length > 0) return { ok: false, problems: named };
  const beyond = jobBeyondLamp(config, job.value.file);
  if (beyond.length > 0) return { ok: false, problems: beyond };
  return {
    ok: true,
    value: {
      config,
      inputs: {
        unit: unit.value.raw,
        profile: profile.value.raw,
        job: withoutPeople(job.value.raw),
      },
      language: words.value.note,
      papers: papers.value,
      people,
    },
  };
}

/** The job file with the bottles that are used for it. */
function readJob(source: Source, { fill, pit }: Bottles) {
  const read = readChecked(jobFileSchema, source);
  if (!read.ok || (fill === null && pit === null)) return read;
  const { file, raw } = read.value;
  const content = jobWithBottles(raw, fill, pit);
  return readChecked(jobFileSchema, { name: file, content });
}

/**
 * Checks settings from the header of a journal. Journals older than the rule on control characters
 * must still be replayable.
 */
export function settingsFromInputs(
  inputs: LoadedSettings['inputs'],
  file: string,
): Checked<RepairConfig> {
  const unit = checkSettings(unitSettingsSchema, madePlain(inputs.unit), `${file}: unit`);
  const stated = withTargetsAtResin(madePlain(inputs.profile));
  const profile = checkSettings(profileSchema, stated, `${file}: profile`);
  const job = checkSettings(jobSheetSchema, madePlain(inputs.job), `${file}: job`);
  if (!unit.ok || !profile.ok || !job.ok) {
    return { ok: false, problems: [unit, profile, job].flatMap((r) => (r.ok ? [] : r.problems)) };
  }
  // The language affects no decision, so a journal is replayed with the built-in words.
  const config = { unit: unit.value, profile: profile.value, job: job.value, catalogue: ENGLISH };
  return { ok: true, value: config };
}
