/**
 * From the command's options and the job sheet to the scenario of a simulated run: place, break,
 * faults by name or from a file, and the person at the bench.
 */

import { InvalidArgumentError } from 'commander';
import { z } from 'zod';
import { FAULT_PRESETS, type Fault, faultSchema } from '../../../sim/faults/faults.ts';
import type { Scenario } from '../../../sim/faults/scenario.ts';
import { standardAtmospherePa } from '../../../sim/plant/air/atmosphere.ts';
import { type WorldFile, worldOf, worldSchema } from '../../../sim/plant/world.ts';
import { readChecked } from '../../app/prepare/read-settings.ts';
import { boardLimitsOf } from '../../control/board-limits.ts';
import { type Checked, schemaName } from '../../core/settings.ts';
import type { RepairConfig } from '../../procedure/repair/repair-state.ts';
import { partsOf } from '../../procedure/repair/work-plan.ts';
import { statedLightOf } from './stated-light.ts';

export interface ScenarioOptions {
  readonly seed: number;
  readonly altitude: number;
  /** Names of ready-made faults, or files of faults. */
  readonly fault: readonly string[];
  /** A file that describes the plant; missing values are the demo's, fitted to the job sheet. */
  readonly plant?: string;
  readonly manual: boolean;
}

export const FAULT_NAMES = Object.keys(FAULT_PRESETS);
const isFaultFile = (words: string): boolean => words.endsWith('.json');

/** A repeatable option: a name, or a file that is read later. */
export function collectFault(name: string, names: readonly string[]): readonly string[] {
  if (FAULT_NAMES.includes(name) || isFaultFile(name)) return [...names, name];
  throw new InvalidArgumentError(`accepted: ${FAULT_NAMES.join(', ')}, or a .json file.`);
}

const TICK_S = 0.05;

const faultFileSchema = z.strictObject({
  schema: schemaName('meniscus/faults@1'),
  faults: z.array(faultSchema).max(20, { error: 'a list of up to 20 faults' }),
});

export function scenarioOf(options: ScenarioOptions, config: RepairConfig): Checked<Scenario> {
  const { job } = config;
  const faults = faultsOf(options.fault);
  if (!faults.ok) return faults;
  const plant: Checked<WorldFile | undefined> = plantOf(options.plant);
  if (!plant.ok) return plant;
  return {
    ok: true,
    value: {
      seed: options.seed,
      tickS: TICK_S,
      atmospherePa: standardAtmospherePa(options.altitude),
      airK: job.airK,
      glassK: job.glassK,
      world: worldOf(
        { ...job.damage, partsM: partsOf(config) },
        job.resin.viscosityPaSAt20C,
        plant.value,
      ),
      goesOnAt: config.entry?.at,
      light: statedLightOf(config),
      glassFloor: boardLimitsOf(config.unit).glassFloor,
      faults: faults.value,
      technician: options.manual ? 'person' : 'scripted',
    },
  };
}

function plantOf(file: string | undefined): Checked<WorldFile | undefined> {
  if (file === undefined) return { ok: true, value: undefined };
  const read = readChecked(worldSchema, file);
  return read.ok ? { ok: true, value: read.value.settings } : read;
}

function faultsOf(names: readonly string[]): Checked<readonly Fault[]> {
  const read = names.map((name): Checked<readonly Fault[]> => {
    if (!isFaultFile(name)) return { ok: true, value: FAULT_PRESETS[name]?.faults ?? [] };
    const file = readChecked(faultFileSchema, name);
    return file.ok ? { ok: true, value: file.value.settings.faults } : file;
  });
  const problems = read.flatMap((one) => (one.ok ? [] : one.problems));
  if (problems.length > 0) return { ok: false, problems };
  return { ok: true, value: read.flatMap((one) => (one.ok ? one.value : [])) };
}
