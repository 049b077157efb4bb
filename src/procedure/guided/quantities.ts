/**
 * The quantities that a person reads off a reference instrument: the unit's matching reading, the
 * trade unit in which it is shown and dialled, the step size and the range.
 */
import type { Reading } from '../../core/frame.ts';
import {
  celsiusFromK,
  kFromCelsius,
  kPaFromPa,
  mWPerCm2FromWPerM2,
  paFromKPa,
  wPerM2FromMWPerCm2,
} from '../../core/units.ts';

export type QuantityName = 'pressure' | 'light' | 'temperature';

export interface Quantity {
  readonly of: 'pressurePa' | 'irradianceWPerM2' | 'glassK';
  /** As the display writes it. */
  readonly unit: string;
  readonly fromSI: (value: number) => number;
  readonly toSI: (value: number) => number;
  /** Steps per trade unit: whole numbers accumulate no rounding. */
  readonly stepsPerUnit: number;
  readonly decimals: number;
  readonly lowest: number;
  readonly highest: number;
}

export const QUANTITIES: Readonly<Record<QuantityName, Quantity>> = {
  pressure: {
    of: 'pressurePa',
    unit: 'kPa abs',
    fromSI: kPaFromPa,
    toSI: paFromKPa,
    stepsPerUnit: 100,
    decimals: 2,
    lowest: 0,
    highest: 400,
  },
  light: {
    of: 'irradianceWPerM2',
    unit: 'mW/cm2',
    fromSI: mWPerCm2FromWPerM2,
    toSI: wPerM2FromMWPerCm2,
    stepsPerUnit: 100,
    decimals: 2,
    lowest: 0,
    highest: 500,
  },
  temperature: {
    of: 'glassK',
    unit: 'C',
    fromSI: celsiusFromK,
    toSI: kFromCelsius,
    stepsPerUnit: 100,
    decimals: 2,
    lowest: -20,
    highest: 100,
  },
};

export const readingOf = (name: QuantityName, reading: Reading): number | null => {
  const measured = reading[QUANTITIES[name].of];
  return measured.ok ? measured.value : null;
};

/** With its decimals and without its unit. */
export const writtenValue = (name: QuantityName, valueSI: number): string => {
  const { fromSI, decimals } = QUANTITIES[name];
  return fromSI(valueSI).toFixed(decimals);
};
