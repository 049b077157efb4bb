/**
 * Everything that a guided procedure is set up from: unit file with its calibrations in force, care
 * and guided figures, words of the display. Every problem comes back; nothing is started.
 */
import type { ReferenceInstrument } from '../care/care-entry.ts';
import type { CareSettings } from '../care/care-settings.ts';
import type { JobConfig } from '../controller-state.ts';
import { guidedSettingsSchema } from '../guided/guided-settings.ts';
import { QUANTITIES } from '../guided/quantities.ts';
import type { ProcedureName } from '../guided/step.ts';
import type { GuidedConfig } from '../guided-state.ts';
import type { Checked } from '../settings.ts';
import { withCalibrations } from './calibrations-in-force.ts';
import { readCare } from './care-records-read.ts';
import builtInGuided from './defaults/guided.json' with { type: 'json' };
import { type GuidedOptions, QUANTITY_OF } from './guided-options.ts';
import { guidedWordsOf } from './guided-words.ts';
import { loadCareSettings } from './load-care.ts';
import { loadSettings } from './load-settings.ts';
import { readChecked } from './read-settings.ts';

const BUILT_IN = { name: 'built-in guided.json', content: builtInGuided };

export interface LoadedGuided {
  readonly config: GuidedConfig;
  readonly care: CareSettings;
  /** For limits of the board and, on the simulated bench, for what surrounds it. */
  readonly job: JobConfig;
  /** What a person should know of the record before, a line each. */
  readonly notes: readonly string[];
}

export interface GuidedAsked {
  readonly procedure: ProcedureName;
  readonly reference: ReferenceInstrument | null;
  /** In the unit of the display. */
  readonly values: readonly number[];
  /** YYYY-MM-DD. */
  readonly today: string;
}

export function loadGuided(
  options: GuidedOptions,
  { procedure, reference, values, today }: GuidedAsked,
): Checked<LoadedGuided> {
  const loaded = loadSettings({ unit: options.unit, language: options.language });
  const care = loadCareSettings(options.care);
  const guided = readChecked(guidedSettingsSchema, options.guided ?? BUILT_IN);
  if (!loaded.ok || !care.ok || !guided.ok) {
    return { ok: false, problems: [loaded, care, guided].flatMap((r) => (r.ok ? [] : r.problems)) };
  }
  const { language } = loaded.value.config.catalogue;
  const words = guidedWordsOf(language, options.words);
  if (!words.ok) return words;
  const simulated = options.port === undefined;
  const { facts, notes } = readCare(options.records, {
    unit: loaded.value.config.unit,
    simulated,
    today,
  });
  const used = withCalibrations(loaded.value, facts);
  if (!used.ok) return used;
  const { config: job } = used.value.settings;
  const toSI = procedure === 'health' ? null : QUANTITIES[QUANTITY_OF[procedure]].toSI;
  const config: GuidedConfig = {
    procedure,
    unit: job.unit,
    settings: guided.value.settings,
    care: care.value,
    reference,
    catalogue: job.catalogue,
    words: words.value,
    given: toSI === null ? [] : values.map(toSI),
  };
  return { ok: true, value: { config, care: care.value, job, notes } };
}
