/**
 * Doses of fill and pit, counted separately. Light counts for the portion that the lamp cures: for
 * both in one exposure, or for each in its own. A pause keeps both counts. The effect of the pit's
 * light on the fill below it is only calculated and never counts towards a target. The procedure
 * decides when a cure ends.
 */

import type { Measured } from '../core/frame.ts';
import type { Portion } from '../core/measurements.ts';
import { type DoseState, NO_DOSE, stepDose } from './dose.ts';
import type { WorkingCurve } from './target-dose.ts';

export type PortionDoses = Readonly<Record<Portion, DoseState>>;

export const NO_DOSES: PortionDoses = { fill: NO_DOSE, pit: NO_DOSE };

/** Counts `dtS` of the lamp's light for the portions that it cures. */
export function stepPortions(
  doses: PortionDoses,
  irradianceWPerM2: Measured,
  { lampOn, on }: { readonly lampOn: boolean; readonly on: Portion | 'both' },
  dtS: number,
): PortionDoses {
  const fill = stepDose(doses.fill, irradianceWPerM2, lampOn && on !== 'pit', dtS);
  const pit =
    doses.pit === doses.fill && on === 'both'
      ? fill
      : stepDose(doses.pit, irradianceWPerM2, lampOn && on !== 'fill', dtS);
  return fill === doses.fill && pit === doses.pit ? doses : { fill, pit };
}

/**
 * Share of the pit's light that reaches the fill below it: exp(-depth/Dp), the transmission of
 * liquid pit resin (Bouguer, Lambert and Beer). Null where depth or resin is not known.
 */
export function throughPitRatio(depthM: number | null, curve: WorkingCurve | null): number | null {
  return depthM === null || curve === null ? null : Math.exp(-depthM / curve.penetrationM);
}
