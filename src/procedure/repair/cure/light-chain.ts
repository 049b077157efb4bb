/**
 * One wavelength and one way of the light for lamp, radiometer and break: what a job is refused
 * for before it begins, because the dose at the resin could not be shown. The bottles' own bands are
 * judged with the bottles, in `intake/resin-suitability.ts`.
 */
import type { SettingsProblem } from '../../../core/settings.ts';
import type { RepairConfig } from '../repair-state.ts';
import { planProblems } from '../work-plan.ts';
import { radiusOf } from './job-target.ts';

/**
 * Farther apart a slope per nanometre no longer tells how wrong a radiometer reads: demo. Most
 * diodes are specified within 5 nm of their peak (a radiometer maker's note SAL-S1006 of 2023), and
 * a radiometer's filter falls off over tens of nanometres (from memory). Between 365 and 395 nm
 * instruments differ by tens of per cent (from memory).
 */
const FARTHEST_APART_NM = 10;

/** The wavelengths that are accepted, in words; null where the radiometer's is among them. */
export function unfitRadiometer(adjustedAtNm: number | null, lampPeakNm: number): string | null {
  const fits = adjustedAtNm !== null && Math.abs(adjustedAtNm - lampPeakNm) <= FARTHEST_APART_NM;
  if (fits) return null;
  const [from, to] = [lampPeakNm - FARTHEST_APART_NM, lampPeakNm + FARTHEST_APART_NM];
  return `from ${from} to ${to} nm, because the lamp peaks at ${lampPeakNm} nm; calibrate against a radiometer that is certified for this lamp's light`;
}

export interface ChainFiles {
  readonly unit: string;
  readonly job: string;
  readonly profile: string;
}

export function lightChainProblems(
  config: RepairConfig,
  files: ChainFiles,
): readonly SettingsProblem[] {
  return [
    ...wavelengthProblems(config, files.unit),
    ...pathProblems(config, files),
    ...planProblems(config, files),
  ];
}

function wavelengthProblems({ unit }: RepairConfig, file: string): readonly SettingsProblem[] {
  const { lampPeakNm } = unit;
  const { adjustedAtNm } = unit.channels.irradiance;
  const accepted = unfitRadiometer(adjustedAtNm, lampPeakNm);
  if (accepted === null) return [];
  return [
    {
      file,
      path: 'channels.irradiance.adjustedAtNm',
      value: adjustedAtNm === null ? 'not stated' : `${adjustedAtNm} nm`,
      accepted,
    },
  ];
}

function pathProblems(config: RepairConfig, files: ChainFiles): readonly SettingsProblem[] {
  const { lightPath } = config.unit;
  if (lightPath === null) {
    const accepted = 'distances of lamp, spot and sensor, which the dose at the resin rests on';
    return [{ file: files.unit, path: 'lightPath', value: 'not stated', accepted }];
  }
  const radiusM = radiusOf(config, 'fill');
  if (radiusM <= lightPath.spotRadiusM) return [];
  return [
    {
      file: files.job,
      path: 'damage.diameterMm',
      value: `${(2 * radiusM * 1000).toFixed(1)} mm across the pit`,
      accepted: `at most ${(2 * lightPath.spotRadiusM * 1000).toFixed(1)} mm, the lamp's even spot: the light beyond it is not known. One spot is cured here; do not fill this break so, but work a crack by a profile that says how it is worked along its length (along) with a unit that states its lamp's field (lightPath.fieldMm), use a lamp with a larger spot and state it in lightPath.spotDiameterMm, or refer the pane for replacement`,
    },
  ];
}
