/**
 * The filling of a slit against closed forms of textbooks: plane Poiseuille flow, capillary pressure
 * between plates, capillary filling against time, and a bubble under pressure. No published data on
 * the filling of glass breaks was found, so these check the parts and not the whole.
 */
import {
  capillaryPa,
  emptyFilling,
  frontSpeedMPerS,
  stepFilling,
} from '../../sim/plant/break-filling.ts';
import type { CheckGroup, CheckRow } from './check.ts';

const APERTURE_M = 50e-6;
const VISCOSITY_PA_S = 0.05;
const RESIN = { surfaceTensionNPerM: 0.035, contactAngleRad: (20 * Math.PI) / 180 };

/** Time to fill a length at constant pressure: the sum of short lengths over their speeds. */
function fillTimeS(lengthM: number, drivingPa: number): number {
  const parts = 1000;
  let timeS = 0;
  for (let i = 0; i < parts; i++) {
    const pathM = ((i + 0.5) / parts) * lengthM;
    timeS += lengthM / parts / frontSpeedMPerS(APERTURE_M, drivingPa, VISCOSITY_PA_S, pathM);
  }
  return timeS;
}

/** By bisection: the length that fills in a time by capillary pressure alone. */
function capillaryLengthM(timeS: number): number {
  let [low, high] = [0, 1];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (fillTimeS(middle, capillaryPa(APERTURE_M, RESIN)) < timeS) low = middle;
    else high = middle;
  }
  return low;
}

const washburn = (timeS: number, expectedMm: number): CheckRow => ({
  what: `length filled by capillary pressure in ${timeS} s`,
  actual: () => 1000 * capillaryLengthM(timeS),
  expected: expectedMm,
  tolerance: 5e-5,
  unit: 'mm',
  source: 'capillary filling of a slit, L = sqrt(σ h cos θ t / (3 μ)) (form from memory)',
  obtained: 'computed',
});

/** What is left of a bubble's length when its pressure rises with no gas lost. */
function bubbleLeftRatio(fromPa: number, toPa: number): number {
  const gap = { lengthM: 0.01, apertureM: 1e-4, escapeS: 40 };
  const filling = emptyFilling(gap, fromPa);
  const drive = { chamberPa: toPa, atmospherePa: toPa, capillaryPa: 0, viscosity: VISCOSITY_PA_S };
  for (let i = 0; i < 2000; i++) stepFilling(filling, gap, drive, 0.001);
  return 1 - filling.frontM / gap.lengthM;
}

export const SLIT_FILLING: CheckGroup = {
  title: 'filling of a slit',
  rows: [
    {
      what: 'time to fill 20 mm of a 50 µm slit at 80 kPa with 50 mPa s',
      actual: () => fillTimeS(0.02, 80_000),
      expected: 0.6,
      tolerance: 0.0005,
      unit: 's',
      source: 'plane Poiseuille flow, t = 6 μ L² / (h² Δp) (form from memory)',
      obtained: 'computed',
    },
    {
      what: 'capillary pressure in a 50 µm slit at 35 mN/m and 20°',
      actual: () => capillaryPa(APERTURE_M, RESIN),
      expected: 1315.57,
      tolerance: 0.005,
      unit: 'Pa',
      source: 'Young and Laplace between plates, 2 σ cos θ / h (form from memory)',
      obtained: 'computed',
    },
    washburn(1, 3.3111),
    washburn(10, 10.4705),
    washburn(60, 25.6473),
    {
      what: 'what 20.265 kPa of trapped gas shrinks to at 151.99 kPa',
      actual: () => bubbleLeftRatio(20_265, 151_990),
      expected: 0.13333,
      tolerance: 5e-6,
      unit: 'of its length',
      source: 'law of Boyle, p1 V1 = p2 V2',
      obtained: 'computed',
    },
  ],
};
