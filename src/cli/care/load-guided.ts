/**
 * Everything that sets up a guided procedure: unit file with its calibrations in force, care and
 * guided figures, words of the display. It returns every problem and starts nothing.
 */

import { z } from 'zod';
import builtInGuided from '../../app/defaults/guided.json' with { type: 'json' };
import { withCalibrations } from '../../app/prepare/calibrations-in-force.ts';
import { readCare } from '../../app/prepare/care-records-read.ts';
import { readCareFile } from '../../app/prepare/load-care.ts';
import { ENGLISH, type LoadedCatalogue } from '../../app/prepare/load-catalogue.ts';
import { loadSettings } from '../../app/prepare/load-settings.ts';
import { readChecked } from '../../app/prepare/read-settings.ts';
import type { JobWords } from '../../app/prepare/terminal-words.ts';
import { type ReferenceInstrument, referenceSchema } from '../../care/care-entry.ts';
import { type CareSettings, careSettingsSchema } from '../../care/care-settings.ts';
import { unitSettingsSchema } from '../../control/unit-settings.ts';
import type { ProcedureName } from '../../core/guided-events.ts';
import { type Checked, checkSettings, type SettingsProblem } from '../../core/settings.ts';
import type { JournalInputs } from '../../journal/journal-format.ts';
import { guidedSettingsSchema } from '../../procedure/guided/guided-settings.ts';
import type { GuidedConfig } from '../../procedure/guided/guided-state.ts';
import { QUANTITIES } from '../../procedure/guided/quantities.ts';
import { RECORD_WORDS } from '../../procedure/guided/record-words.ts';
import { unfitRadiometer } from '../../procedure/repair/cure/light-chain.ts';
import type { RepairConfig } from '../../procedure/repair/repair-state.ts';
import { type GuidedOptions, QUANTITY_OF } from './guided-options.ts';
import { guidedWordsOf } from './guided-words.ts';

const BUILT_IN = { name: 'built-in guided.json', content: builtInGuided };

export interface LoadedGuided {
  readonly config: GuidedConfig;
  readonly care: CareSettings;
  /** For the board's limits and, on the simulated bench, for its surroundings. */
  readonly job: RepairConfig;
  /** Remarks about the record for a person beforehand, one line each. */
  readonly notes: readonly string[];
  /**
   * For the journal's header: the unit file as used, the figures as given, and the language on the
   * display.
   */
  readonly unit: unknown;
  readonly figures: Readonly<Record<string, unknown>>;
  readonly display: LoadedCatalogue['note'];
  /** The words of the terminal. */
  readonly papers: JobWords;
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
  const care = readCareFile(options.care);
  const guided = readChecked(guidedSettingsSchema, options.guided ?? BUILT_IN);
  if (!loaded.ok || !care.ok || !guided.ok) {
    return { ok: false, problems: [loaded, care, guided].flatMap((r) => (r.ok ? [] : r.problems)) };
  }
  const named = options.language ?? loaded.value.config.unit.language;
  const words = guidedWordsOf(named, options.words);
  if (!words.ok) return words;
  const simulated = options.port === undefined;
  const { facts, notes } = readCare(options.records, {
    unit: loaded.value.config.unit,
    simulated,
    today,
  });
  const used = withCalibrations(loaded.value, facts);
  if (!used.ok) return used;
  const { config: job, inputs, language: display, papers } = used.value.settings;
  const unfit = wavelengthProblems(procedure, reference, job.unit.lampPeakNm);
  if (unfit.length > 0) return { ok: false, problems: unfit };
  const toSI = procedure === 'health' ? null : QUANTITIES[QUANTITY_OF[procedure]].toSI;
  const config: GuidedConfig = {
    procedure,
    unit: job.unit,
    settings: guided.value.settings,
    care: care.value.settings,
    reference,
    catalogue: job.catalogue,
    words: words.value,
    given: toSI === null ? [] : values.map(toSI),
  };
  const figures = {
    guided: guided.value.raw,
    care: care.value.raw,
    reference,
    given: config.given,
  };
  const { settings } = care.value;
  return {
    ok: true,
    value: { config, care: settings, job, notes, unit: inputs.unit, figures, display, papers },
  };
}

/** Before anything moves: a radiometer for other light would make every later dose wrong. */
function wavelengthProblems(
  procedure: ProcedureName,
  reference: ReferenceInstrument | null,
  lampPeakNm: number,
): readonly SettingsProblem[] {
  if (procedure !== 'uv') return [];
  const atNm = reference?.atNm ?? null;
  const accepted = unfitRadiometer(atNm, lampPeakNm);
  if (accepted === null) return [];
  return [
    {
      file: 'calibrate uv',
      path: '--at-nm',
      value: atNm === null ? 'not stated' : `${atNm} nm`,
      accepted,
    },
  ];
}

const figuresSchema = z.looseObject({
  guided: guidedSettingsSchema,
  care: careSettingsSchema,
  reference: referenceSchema.nullable(),
  given: z.array(z.number()),
});

/** From the header of a journal; the language affects no decision. */
export function guidedFromInputs(
  procedure: ProcedureName,
  { unit, extra }: JournalInputs,
  file: string,
): Checked<GuidedConfig> {
  const used = checkSettings(unitSettingsSchema, unit, `${file}: unit`);
  const figures = checkSettings(figuresSchema, extra, `${file}: extra`);
  if (!used.ok || !figures.ok) {
    return { ok: false, problems: [used, figures].flatMap((r) => (r.ok ? [] : r.problems)) };
  }
  const { guided: settings, care, reference, given } = figures.value;
  const words = { catalogue: ENGLISH, words: RECORD_WORDS };
  return {
    ok: true,
    value: { procedure, unit: used.value, settings, care, reference, given, ...words },
  };
}
