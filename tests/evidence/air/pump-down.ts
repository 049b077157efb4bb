/**
 * Pump-down against the law of vacuum handbooks, with ultimate pressure and leak. The model's
 * efficiency, linear in the pressure ratio R, is that law with an ultimate pressure of the
 * atmosphere over R and a pumping speed of R/(R - 1) of the free flow.
 */

import {
  MOLAR_MASS_KG_PER_MOL,
  REFERENCE_K,
  REFERENCE_KG_PER_M3,
} from '../../../sim/plant/air/flow.ts';
import { GAS_CONSTANT_J_PER_MOL_K } from '../../../sim/plant/air/gas-constant.ts';
import type { Pump } from '../../../sim/plant/air/pump.ts';
import type { CheckGroup, CheckRow, Plot } from '../check.ts';
import { pressureAfterPa, SHUT, STILL, timeToFallS, vesselUnit } from './air-bench.ts';

const VOLUME_M3 = 20e-6;
const SPEED_M3_PER_S = 1e-3 / 60;
const DRAWING = { ...STILL, pumpRatio: 1, atmospherePa: 1e5 };
const PUMP_DOWN = 'vacuum handbooks, t = V/S ln((p1 - pu)/(p2 - pu)); 20 mL, 1 L/min';

/** A pump of that effective speed. */
const pumpOf = (speedM3PerS: number, greatestRatio: number): Pump => ({
  freeFlowM3PerS: (speedM3PerS * (greatestRatio - 1)) / greatestRatio,
  greatestRatio,
  deadHeadPa: 1,
  stallRatio: 0,
  startLagS: 1,
  ratedV: 12,
});

const unitOf = (greatestRatio: number, leakPaM3PerS = 0) =>
  vesselUnit(VOLUME_M3, {
    pump: pumpOf(SPEED_M3_PER_S, greatestRatio),
    vent: { ...SHUT, sonicConductance: leakConductance(leakPaM3PerS) },
  });

/** Sonic conductance that lets this throughput in from 1 bar while it is choked. */
const leakConductance = (leakPaM3PerS: number): number =>
  (leakPaM3PerS * MOLAR_MASS_KG_PER_MOL) /
  (GAS_CONSTANT_J_PER_MOL_K * REFERENCE_K * REFERENCE_KG_PER_M3 * 1e5);

/** Leaks are choked below 0.3 of the atmosphere, and so constant from there down. */
const leaking = (leakPaM3PerS: number) => ({ ...DRAWING, ventOpen: leakPaM3PerS > 0 });

function lawS(fromPa: number, toPa: number, ultimatePa: number, leakPaM3PerS: number): number {
  const endPa = ultimatePa + leakPaM3PerS / SPEED_M3_PER_S;
  return (VOLUME_M3 / SPEED_M3_PER_S) * Math.log((fromPa - endPa) / (toPa - endPa));
}

const timed = (fromPa: number, toPa: number, ratio: number, leak: number): CheckRow => ({
  what: `from ${fromPa / 100} to ${toPa / 100} mbar, ultimate ${1000 / ratio} mbar, leak ${leak * 10} mbar L/s`,
  actual: () => timeToFallS(unitOf(ratio, leak), leaking(leak), fromPa, toPa, 1e-4),
  expected: lawS(fromPa, toPa, 1e5 / ratio, leak),
  // Five digits, as the other rows of the law.
  tolerance: 5e-5,
  unit: 's',
  source: `${PUMP_DOWN}; with a leak pu + q/S for pu (ratio seen at a maker's vacuum handbook page)`,
  obtained: 'computed',
});

const endRow = (ratio: number, leak: number): CheckRow => ({
  what: `end pressure, ultimate ${1000 / ratio} mbar, leak ${leak * 10} mbar L/s`,
  actual: () => pressureAfterPa(unitOf(ratio, leak), leaking(leak), 3e4, 60, 1e-3) / 100,
  expected: (1e5 / ratio + leak / SPEED_M3_PER_S) / 100,
  tolerance: 1e-6,
  unit: 'mbar',
  source: 'vacuum formula sheets, pu + q/S (q/S seen at semiconductor-tools.pages.dev)',
  obtained: 'computed',
});

function vesselOf500L(): number {
  const unit = vesselUnit(0.5, { pump: pumpOf(20.8 / 3600, 1e9) });
  return timeToFallS(unit, { ...DRAWING, atmospherePa: 101_300 }, 101_300, 100, 0.01) / 60;
}

export const PUMPING_DOWN: CheckGroup = {
  title: 'pump-down',
  rows: [
    {
      what: 'pump-down from 1000 to 100 mbar with no ultimate pressure',
      actual: () => timeToFallS(unitOf(1e9), DRAWING, 1e5, 1e4, 1e-4),
      expected: 2.7631,
      tolerance: 5e-5,
      unit: 's',
      source: PUMP_DOWN,
      obtained: 'computed',
    },
    {
      what: 'pump-down from 1000 to 100 mbar with an ultimate pressure of 50 mbar',
      actual: () => timeToFallS(unitOf(20), DRAWING, 1e5, 1e4, 1e-4),
      expected: 3.53333,
      tolerance: 5e-5,
      unit: 's',
      source: PUMP_DOWN,
      obtained: 'computed',
    },
    timed(1e5, 1e4, 12.5, 0),
    timed(3e4, 1e4, 20, 0.01),
    timed(3e4, 1e4, 50, 0.05),
    timed(2e4, 1.5e4, 12.5, 0.08),
    endRow(20, 0.01),
    endRow(12.5, 0.08),
    {
      what: 'from 1013 to 1 mbar in 500 L with 20.8 m³/h',
      actual: vesselOf500L,
      expected: 10,
      // The speed has three digits.
      tolerance: 0.03,
      unit: 'min',
      source: 'worked example of a vacuum handbook',
      obtained: 'from memory',
    },
  ],
  plots: () => [curves()],
};

function curves(): Plot {
  const cases = [
    { label: 'tight', leak: 0 },
    { label: 'leak 0.8 mbar L/s', leak: 0.08 },
  ];
  const times = Array.from({ length: 41 }, (_, i) => i * 0.15);
  const pressures = [3e4, 2.5e4, 2e4, 1.7e4, 1.5e4, 1.3e4];
  return {
    title: 'Pump-down of 20 mL from 300 mbar, 1 L/min, ultimate pressure 80 mbar',
    xLabel: 'time (s)',
    yLabel: 'pressure (Pa)',
    lines: cases.map(({ label, leak }) => ({
      label: `model, ${label}`,
      x: times,
      y: times.map((t) => pressureAfterPa(unitOf(12.5, leak), leaking(leak), 3e4, t, 1e-3)),
    })),
    points: cases.map(({ label, leak }) => ({
      label: `handbook law, ${label}`,
      x: pressures.map((pa) => lawS(3e4, pa, 8e3, leak)),
      y: pressures,
    })),
  };
}
