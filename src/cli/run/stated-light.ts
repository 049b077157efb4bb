/**
 * What the unit file states of its light, for the simulated board: its sensors are drawn from the
 * same budget that the controller reckons with.
 */
import type { StatedLight } from '../../../sim/board/light-errors.ts';
import { radiusOf } from '../../procedure/repair/job-target.ts';
import type { RepairConfig } from '../../procedure/repair/repair-state.ts';

export function statedLightOf(config: Pick<RepairConfig, 'unit' | 'job'>): StatedLight {
  const { lampPeakNm, channels, uncertainty, lightPath } = config.unit;
  return {
    lampPeakNm,
    adjustedAtNm: channels.irradiance.adjustedAtNm,
    errors: uncertainty.irradiance,
    fullWPerM2: channels.irradiance.fullWPerM2,
    path: lightPath,
    fillRadiusM: radiusOf(config, 'fill'),
    pitRadiusM: radiusOf(config, 'pit'),
  };
}
