/** Leak rates by rate of rise in the units of vacuum handbooks. */
import { addPoint, leakRatePaM3PerS, lineOf, NO_POINTS } from '../../../src/procedure/leak.ts';
import type { CheckGroup, CheckRow } from '../check.ts';

/** A chamber of this volume that rises so fast, watched for a minute. */
function rateOf(volumeM3: number, paPerS: number): number {
  let fit = NO_POINTS;
  for (let i = 0; i <= 1200; i++) fit = addPoint(fit, i * 0.05, 60_000 + paPerS * i * 0.05);
  return leakRatePaM3PerS(lineOf(fit)?.slopePaPerS ?? Number.NaN, volumeM3);
}

const PA_PER_TORR = 101_325 / 760;
/** kg/s of dry air at 20 C in one Pa m3/s: M/(R T). */
const KG_PER_PA_M3 = 0.0289644 / (8.314462618 * 293.15);

const row = (
  what: string,
  actual: () => number,
  expected: number,
  tolerance: number,
  unit: string,
  source: string,
  obtained: CheckRow['obtained'],
): CheckRow => ({ what, actual, expected, tolerance, unit, source, obtained });

export const LEAK_UNITS: CheckGroup = {
  title: 'leak rates in handbook units',
  rows: [
    row(
      '1 L rising by 1 Torr a second (1 Torr L/s)',
      () => rateOf(1e-3, PA_PER_TORR),
      0.133322,
      5e-7,
      'Pa m3/s',
      'NIST SP 811: Torr 1.333224 E+02 Pa, as quoted by secondary files',
      'seen second-hand',
    ),
    row(
      '1 L rising by a thousandth of a Torr a second (1 lusec)',
      () => rateOf(1e-3, PA_PER_TORR / 1000),
      1.33e-4,
      5e-7,
      'Pa m3/s',
      'vacuum handbooks: 1 lusec is 1.33e-4 Pa m3/s',
      'from memory',
    ),
    row(
      '1 cm3 rising by an atmosphere a second (1 atm cm3/s)',
      () => rateOf(1e-6, 101_325),
      0.1013,
      5e-5,
      'Pa m3/s',
      'leak-testing handbooks: 1 atm cm3/s is 0.1013 Pa m3/s',
      'from memory',
    ),
    row(
      'air at 20 C that a rise of 1 mbar a second in 1 L brings in',
      () => rateOf(1e-3, 100) * KG_PER_PA_M3 * 3.6e6,
      4.28,
      0.005,
      'g/h',
      'vacuum handbooks: 1 mbar L/s is 4.28 g/h of air at 20 C',
      'from memory',
    ),
    row(
      'the demo limit: 30 mL rising by 166.7 Pa a second',
      () => rateOf(30e-6, 500 / 3) * 10,
      0.05,
      5e-10,
      'mbar L/s',
      '1 mbar L/s = 0.1 Pa m3/s, seen at atlasofengineering.com, vacuum formula sheet',
      'computed',
    ),
  ],
};
