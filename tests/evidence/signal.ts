import { FULL_SCALE_COUNTS } from '../../src/frame.ts';
import { pressurePaOf, steinhartHartK } from '../../src/signal/channels.ts';
import { celsiusFromK } from '../../src/units.ts';
import { DEFAULT_UNIT } from '../configs.ts';
import type { CheckGroup } from './check.ts';

const PUBLISHED = { a: 1.104505e-3, b: 2.38861e-4, c: 6.95361e-8 };
const MANUAL =
  'resistance table A.1 of a laser-diode temperature controller manual (0, 20, 50 C fix the three coefficients)';

/** Rows that the fit did not use; the page states residuals of up to 0.001 K at these points. */
const fitRow = (celsius: number, ohm: number, tolerance: number) => ({
  what: `thermistor of ${ohm} ohm`,
  actual: () => celsiusFromK(steinhartHartK(ohm, PUBLISHED)),
  expected: celsius,
  tolerance,
  unit: 'C',
  source: MANUAL,
  obtained: 'seen' as const,
});

export const THERMISTOR: CheckGroup = {
  title: 'thermistor',
  rows: [fitRow(10, 19_549, 0.002), fitRow(25, 9_814, 0.002), fitRow(30, 7_908, 0.002)],
};

/** Output of a ratiometric 0.5 to 4.5 V sensor; the definition of the type, from memory. */
const voltsRow = (volts: number, supplyV: number, kPa: number) => ({
  what: `${volts} V of a ${supplyV} V supply`,
  actual: () =>
    (pressurePaOf((volts / supplyV) * FULL_SCALE_COUNTS, DEFAULT_UNIT.channels) ?? Number.NaN) /
    1000,
  expected: kPa,
  tolerance: 1e-9 * 400,
  unit: 'kPa',
  source: 'ratiometric live-zero definition Vout = Vs (0.1 + 0.8 p/span), 400 kPa span',
  obtained: 'from memory' as const,
});

export const PRESSURE_TRANSMITTER: CheckGroup = {
  title: 'pressure transmitter',
  rows: [
    voltsRow(0.5, 5, 0),
    voltsRow(2.5, 5, 200),
    voltsRow(4.5, 5, 400),
    voltsRow(2.375, 4.75, 200),
  ],
};
