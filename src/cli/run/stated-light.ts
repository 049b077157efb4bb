/**
 * What the unit file states of its light, for the simulated board: its sensors are drawn from the
 * same budget that the controller reckons with.
 */
import type { FieldRow } from '../../../sim/board/field-row.ts';
import type { StatedLight } from '../../../sim/board/light-errors.ts';
import { radiusOf } from '../../procedure/repair/cure/job-target.ts';
import type { RepairConfig } from '../../procedure/repair/repair-state.ts';
import { litLengthM, workPlanOf } from '../../procedure/repair/work-plan.ts';

type Worked = Pick<RepairConfig, 'unit' | 'job' | 'profile'>;

export function statedLightOf(config: Worked): StatedLight {
  const { lampPeakNm, channels, uncertainty, lightPath } = config.unit;
  return {
    lampPeakNm,
    adjustedAtNm: channels.irradiance.adjustedAtNm,
    errors: uncertainty.irradiance,
    fullWPerM2: channels.irradiance.fullWPerM2,
    path: lightPath,
    fillRadiusM: radiusOf(config, 'fill'),
    pitRadiusM: radiusOf(config, 'pit'),
    row: fieldRowOf(config),
  };
}

/** The lamp stands over the middle of each field, the first of which begins before the pit. */
function fieldRowOf(config: Worked): FieldRow | null {
  const { fields, fieldRadiusM } = workPlanOf(config);
  const field = config.unit.lightPath?.field ?? null;
  if (field === null || fieldRadiusM === null) return null;
  return {
    ...fields,
    fieldLengthM: field.lengthM,
    litLengthM: litLengthM(config.job),
    pitM: config.job.damage.pitM / 2,
  };
}
