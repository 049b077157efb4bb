/**
 * Leaks: how a vessel's pressure rises, how much passes holes of a size, and the seal's slit and
 * sagitta against closed forms. Rates are throughputs, pressure times volume over time.
 */

import { createAir, stepAir } from '../../../sim/plant/air/air.ts';
import { flowMolPerS } from '../../../sim/plant/air/flow.ts';
import { GAS_CONSTANT_J_PER_MOL_K } from '../../../sim/plant/air/gas-constant.ts';
import { DEMO_SEAL_RING, gapConductance, sagittaM } from '../../../sim/plant/air/seal.ts';
import type { CheckGroup, CheckRow } from '../check.ts';
import { AIR_PA, GAS_K, pressureAfterPa, STILL, vesselUnit } from './air-bench.ts';
import { holeOf } from './restriction-flow.ts';

/** Rise in a vessel that takes in `molPerS`, Pa; the injector is the vessel, as gas comes in there. */
function risePa(volumeM3: number, molPerS: number, gasK: number, timeS: number): number {
  const unit = { ...vesselUnit(1e-6), injectorM3: volumeM3 };
  const drive = { ...STILL, gasK, sourceMolPerS: molPerS, atmospherePa: 1000 };
  const state = createAir(unit, 1000, gasK);
  for (let i = 0; i < Math.round(timeS / 0.01); i++) stepAir(state, unit, drive, 0.01);
  return state.injectorPa - 1000;
}

const molOf = (paM3: number, gasK: number): number => paM3 / (GAS_CONSTANT_J_PER_MOL_K * gasK);

const sizeRow = (what: string, diameterM: number, decades: number): CheckRow => ({
  what: `leak of a hole of ${what} into vacuum`,
  actual: () => {
    const paM3PerS =
      flowMolPerS(holeOf(diameterM), AIR_PA, 0, GAS_K) * GAS_CONSTANT_J_PER_MOL_K * GAS_K;
    return Math.log10(paM3PerS / 0.1);
  },
  expected: decades,
  tolerance: 0.5,
  unit: 'log10 of mbar L/s',
  source: 'table of leak size and leak rate on a page of leak testing',
  obtained: 'seen',
  why: 'the table gives whole powers of ten',
});

/** Poiseuille flow of gas through the slit under half of the demo ring into vacuum, mol/s. */
const slitMolPerS = (gapM: number): number =>
  (Math.PI * 0.01 * gapM ** 3 * AIR_PA ** 2) / (24 * 1.81e-5 * 0.0015 * 8.314462618 * 293.15);

export const LEAKS: CheckGroup = {
  title: 'leaks',
  rows: [
    {
      what: 'rise in a minute from a leak of 1.66667e-6 Pa m³/s into 20 mL',
      actual: () => risePa(20e-6, molOf(1.66667e-6, GAS_K), GAS_K, 60),
      expected: 5,
      tolerance: 5e-5,
      unit: 'Pa',
      source: 'leak rate by pressure rise, Q = V dp/dt (formula seen)',
      obtained: 'computed',
    },
    {
      what: 'rise in a second of 1 L that takes in 59.2 cm³/min at 0 °C and 1013 mbar',
      actual: () => risePa(1e-3, molOf((59.2e-6 / 60) * 101_300, 273.15), 273.15, 1) / 100,
      expected: 1,
      // Three digits.
      tolerance: 0.001,
      unit: 'mbar',
      source: '1 mbar L/s = 59.2 cm³/min, table of leak rates on a page of leak testing',
      obtained: 'seen',
    },
    {
      what: 'rise of 100 mL in 10 s that takes in 1 sccm at 0 °C',
      actual: () => risePa(100e-6, molOf((1e-6 / 60) * 101_325, 273.15), 273.15, 10),
      expected: 168.875,
      tolerance: 0.0005,
      unit: 'Pa',
      source: '1 sccm = 0.0168875 mbar L/s (0 °C, 1 atm), seen at semiconductor-tools.pages.dev',
      obtained: 'seen',
    },
    {
      what: 'a vessel that takes nothing in for ten minutes',
      actual: () => pressureAfterPa(vesselUnit(20e-6), STILL, 9_000, 600, 0.01),
      expected: 9_000,
      tolerance: 1e-6,
      unit: 'Pa',
      source: 'conservation of mass',
      obtained: 'computed',
    },
    sizeRow('1 cm', 0.01, 4),
    sizeRow('1 mm', 0.001, 2),
    sizeRow('0.1 mm', 0.0001, 0),
    sizeRow('0.01 mm', 0.00001, -2),
    {
      what: 'air through a slit of 0.1 µm under half of the demo ring, into vacuum',
      actual: () => {
        const slit = { criticalRatio: 0.3, sonicConductance: gapConductance(DEMO_SEAL_RING, 1e-7) };
        return flowMolPerS(slit, AIR_PA, 0, GAS_K) / slitMolPerS(1e-7);
      },
      expected: 1,
      // In series with its narrowest area, which passes 12 000 times as much.
      tolerance: 1e-4,
      unit: 'of Poiseuille flow',
      source: 'laminar flow of gas in a slit, w h³ (p1² - p2²)/(24 μ L R T) (from memory)',
      obtained: 'computed',
    },
    {
      what: 'how far a pane of 3 m radius falls away under a ring of 20 mm',
      actual: () => sagittaM(0.01, 3) * 1e6,
      expected: 16.6667,
      tolerance: 0.0005,
      unit: 'µm',
      source: 'sagitta of a circle, r²/(2 R)',
      obtained: 'computed',
    },
  ],
};
