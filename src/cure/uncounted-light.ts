/**
 * Light that acted on the resin without being counted, because a frame came late: an upper bound,
 * beside the dose, which counts only what was measured. Over-exposure is judged by both together.
 */
import type { Measured } from '../core/frame.ts';
import { PORTIONS, type Portion } from '../core/measurements.ts';

export interface UncountedLight {
  /** At most, by portion. */
  readonly doseJPerM2: Readonly<Record<Portion, number>>;
  readonly lampOnS: Readonly<Record<Portion, number>>;
  /** The latest valid reading while the lamp was on; 0 before it. */
  readonly lastWPerM2: number;
}

export const NO_UNCOUNTED_LIGHT: UncountedLight = {
  doseJPerM2: { fill: 0, pit: 0 },
  lampOnS: { fill: 0, pit: 0 },
  lastWPerM2: 0,
};

/** The brighter of the readings on either side of the time that was not counted. */
export function stepUncountedLight(
  light: UncountedLight,
  irradianceWPerM2: Measured,
  { lampOn, on }: { readonly lampOn: boolean; readonly on: Portion | 'both' },
  uncountedS: number,
): UncountedLight {
  if (!lampOn) return light.lastWPerM2 === 0 ? light : { ...light, lastWPerM2: 0 };
  const lastWPerM2 = irradianceWPerM2.ok ? irradianceWPerM2.value : light.lastWPerM2;
  if (uncountedS <= 0) return lastWPerM2 === light.lastWPerM2 ? light : { ...light, lastWPerM2 };
  const doseJPerM2 = { ...light.doseJPerM2 };
  const lampOnS = { ...light.lampOnS };
  for (const portion of PORTIONS) {
    if (on !== 'both' && on !== portion) continue;
    doseJPerM2[portion] += Math.max(light.lastWPerM2, lastWPerM2) * uncountedS;
    lampOnS[portion] += uncountedS;
  }
  return { doseJPerM2, lampOnS, lastWPerM2 };
}
