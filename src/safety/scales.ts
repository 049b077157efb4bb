/**
 * How an alarm's quantity is written for people: unit, factor and offset from SI, one row per
 * quantity. The alarm table decides which alarm uses which.
 */
import type { Phrase } from '../core/phrases.ts';
import {
  J_PER_M2_PER_MJ_PER_CM2,
  PA_PER_KPA,
  W_PER_M2_PER_MW_PER_CM2,
  ZERO_CELSIUS_K,
} from '../core/units.ts';

export interface Scale {
  readonly unit: string;
  readonly siPerUnit: number;
  readonly zeroSI: number;
  readonly decimals: number;
}

export const SCALES = {
  absolutePressure: { unit: 'kPa abs', siPerUnit: PA_PER_KPA, zeroSI: 0, decimals: 1 },
  gaugePressure: { unit: 'kPa gauge', siPerUnit: PA_PER_KPA, zeroSI: 0, decimals: 1 },
  pressureDifference: { unit: 'kPa off', siPerUnit: PA_PER_KPA, zeroSI: 0, decimals: 1 },
  temperature: { unit: 'C', siPerUnit: 1, zeroSI: ZERO_CELSIUS_K, decimals: 1 },
  temperatureDifference: { unit: 'K', siPerUnit: 1, zeroSI: 0, decimals: 1 },
  heatingRate: { unit: 'K/min', siPerUnit: 1 / 60, zeroSI: 0, decimals: 1 },
  share: { unit: '%', siPerUnit: 0.01, zeroSI: 0, decimals: 0 },
  irradiance: { unit: 'mW/cm2', siPerUnit: W_PER_M2_PER_MW_PER_CM2, zeroSI: 0, decimals: 1 },
  dose: { unit: 'mJ/cm2', siPerUnit: J_PER_M2_PER_MJ_PER_CM2, zeroSI: 0, decimals: 0 },
  voltage: { unit: 'V', siPerUnit: 1, zeroSI: 0, decimals: 1 },
  time: { unit: 's', siPerUnit: 1, zeroSI: 0, decimals: 1 },
  leakRate: { unit: 'Pa m3/s', siPerUnit: 1, zeroSI: 0, decimals: 4 },
  /** 0 is normal, 1 is not. */
  state: { unit: '', siPerUnit: 1, zeroSI: 0, decimals: 0 },
} as const satisfies Record<string, Scale>;
export type Quantity = keyof typeof SCALES;

export const toSI = (value: number, { siPerUnit, zeroSI }: Scale): number =>
  value * siPerUnit + zeroSI;

export const fromSI = (valueSI: number, { siPerUnit, zeroSI }: Scale): number =>
  (valueSI - zeroSI) / siPerUnit;

/** A value in its quantity's unit; the caller chooses the words. */
export function amountOf(valueSI: number, quantity: Quantity): Phrase {
  const scale = SCALES[quantity];
  const value = fromSI(valueSI, scale);
  const digits = Number.isFinite(value)
    ? value.toFixed(scale.decimals)
    : { say: 'no-end' as const };
  return { say: quantity, with: { value: digits } };
}
