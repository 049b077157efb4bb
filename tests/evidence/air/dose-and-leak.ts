import { NO_DOSE, stepDose } from '../../../src/cure/dose.ts';
import { addPoint, leakRatePaM3PerS, lineOf, NO_POINTS } from '../../../src/procedure/leak.ts';
import { measured } from '../../frames.ts';
import type { CheckGroup } from '../check.ts';

const TICK_S = 0.05;

function doseOf(seconds: number, irradiance: (t: number) => number): number {
  let dose = NO_DOSE;
  for (let i = 0; i <= Math.round(seconds / TICK_S); i++) {
    dose = stepDose(dose, measured(irradiance(i * TICK_S)), true, TICK_S);
  }
  return dose.doseJPerM2;
}

export const DOSE: CheckGroup = {
  title: 'dose',
  rows: [
    {
      what: '6 mW/cm2 for 16.7 s',
      actual: () => doseOf(16.7, () => 60) / 10,
      expected: 100,
      tolerance: 0.5,
      unit: 'mJ/cm2',
      source: 'H = E t (radiant exposure, ISO 80000-7), UV-A of full sun taken as 60 W/m2',
      obtained: 'computed',
    },
    {
      what: 'a lamp that falls as exp(-t/100 s) from 200 W/m2, for 300 s',
      actual: () => doseOf(300, (t) => 200 * Math.exp(-t / 100)),
      expected: 200 * 100 * (1 - Math.exp(-3)),
      // The trapezoid's own error, h^2/12 of the change in slope: below 1e-3 J/m2 here.
      tolerance: 1e-3,
      unit: 'J/m2',
      source: 'closed form of the integral',
      obtained: 'computed',
    },
    {
      what: 'a half sine of 200 W/m2 over 100 s',
      actual: () => doseOf(100, (t) => 200 * Math.sin((Math.PI * t) / 100)),
      expected: (2 * 200 * 100) / Math.PI,
      tolerance: 1e-2,
      unit: 'J/m2',
      source: 'closed form of the integral',
      obtained: 'computed',
    },
  ],
};

function riseTest(volumeM3: number, risePaPerS: number, seconds: number): number {
  let fit = NO_POINTS;
  for (let i = 0; i <= seconds / TICK_S; i++) {
    fit = addPoint(fit, i * TICK_S, 1000 + risePaPerS * i * TICK_S);
  }
  return leakRatePaM3PerS(lineOf(fit)?.slopePaPerS ?? Number.NaN, volumeM3);
}

export const RATE_OF_RISE: CheckGroup = {
  title: 'rate-of-rise leak test',
  rows: [
    {
      what: '20 mL rising 5 Pa a minute',
      actual: () => riseTest(20e-6, 5 / 60, 60),
      expected: 1.66667e-6,
      tolerance: 5e-12,
      unit: 'Pa m3/s',
      source: 'Q = V dp/dt, vacuum formula sheets; seen at semiconductor-tools.pages.dev',
      obtained: 'computed',
    },
    {
      what: '1 L rising 1 mbar in 1 s, in mbar L/s (1 mbar L/s = 0.1 Pa m3/s)',
      actual: () => riseTest(1e-3, 100, 1) / 0.1,
      expected: 1,
      tolerance: 1e-9,
      unit: 'mbar L/s',
      source: 'unit relation seen at atlasofengineering.com, vacuum formula sheet',
      obtained: 'seen',
    },
    {
      what: '1 sccm into 100 mL',
      actual: () => riseTest(100e-6, 0.00168875 / 100e-6, 10),
      expected: 0.00168875,
      tolerance: 5e-9,
      unit: 'Pa m3/s',
      source: '1 sccm = 0.0168875 mbar L/s (0 C, 1 atm), seen at semiconductor-tools.pages.dev',
      obtained: 'seen',
    },
  ],
};
