/**
 * The unit's care before a repair: reads the record, puts calibrations into force, and asks the
 * gate. It returns either the settings as used, with messages and facts to record, or the reasons
 * for a refusal.
 */
import { dueItems } from '../../care/due.ts';
import { problemLine } from '../../core/settings.ts';
import { jobBeyondLamp } from '../../procedure/repair/cure/job-target.ts';
import { type InForce, withCalibrations } from './calibrations-in-force.ts';
import { calibrationRows, careRows } from './care-facts.ts';
import { careGate, type GateAsked, type UsedCareOverride } from './care-gate.ts';
import { type CaredUnit, readCare } from './care-records-read.ts';
import { loadCareSettings } from './load-care.ts';
import type { LoadedSettings } from './load-settings.ts';

export interface CareAsked extends GateAsked {
  readonly records: string;
  /** Path of a care file; the built-in one where none is named. */
  readonly care: string | undefined;
  readonly simulated: boolean;
  /** YYYY-MM-DD, UTC. */
  readonly today: string;
}

export type CareForRun =
  | {
      readonly ok: true;
      /** With calibrations in force; `inputs.unit` is the unit file as used. */
      readonly settings: LoadedSettings;
      readonly applied: readonly InForce[];
      /** For report and certificate. */
      readonly calibrations: ReturnType<typeof calibrationRows>;
      readonly state: ReturnType<typeof careRows>;
      readonly warnings: readonly string[];
      readonly overrides: readonly UsedCareOverride[];
    }
  | { readonly ok: false; readonly lines: readonly string[] };

export function careForRun(loaded: LoadedSettings, asked: CareAsked): CareForRun {
  const care = loadCareSettings(asked.care);
  if (!care.ok) return { ok: false, lines: care.problems.map(problemLine) };
  const { simulated, today } = asked;
  const of: CaredUnit = { unit: loaded.config.unit, simulated, today };
  const { facts, notes } = readCare(asked.records, of);
  const items = dueItems(facts, care.value);
  const gate = careGate(items, asked);
  if (!gate.ok) return { ok: false, lines: [...notes, ...gate.lines] };
  const used = withCalibrations(loaded, facts);
  if (!used.ok) return { ok: false, lines: used.problems.map(problemLine) };
  const beyond = jobBeyondLamp(used.value.settings.config, 'job, with the lamp as last measured');
  if (beyond.length > 0) return { ok: false, lines: beyond.map(problemLine) };
  const { overrides, warnings } = gate;
  return {
    ok: true,
    ...used.value,
    calibrations: calibrationRows(facts),
    state: careRows(items),
    overrides,
    warnings: [...notes, ...warnings],
  };
}
