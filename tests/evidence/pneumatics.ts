/**
 * Valves, pump and chamber against figures that do not come from the model: the flow law of ISO
 * 6358-1, gas dynamics, blow-down, leak rate by pressure rise, and the pump-down law.
 */
import {
  evacuationKgPerS,
  GAS_CONSTANT_AIR,
  type Pump,
  REFERENCE_DENSITY_KG_PER_M3,
  type Restriction,
  restrictionKgPerS,
  stepChamberPa,
} from '../../sim/plant/pneumatics.ts';
import type { CheckGroup, CheckRow } from './check.ts';

const GAS_K = 293.15;
const VOLUME_M3 = 20e-6;

const VALVE: Restriction = { sonicConductance: 1e-9, criticalRatio: 0.3 };
const ISO_6358 =
  'ISO 6358-1 flow law with C = 1e-9 m³/(s Pa), b = 0.3, 1.185 kg/m³ (density from memory)';

const isoRow = (upPa: number, downPa: number, expected: number): CheckRow => ({
  what: `flow from ${upPa} Pa to ${downPa} Pa`,
  actual: () =>
    (restrictionKgPerS(VALVE, upPa, downPa, GAS_K) / REFERENCE_DENSITY_KG_PER_M3) * 60_000,
  expected,
  tolerance: 5e-5,
  unit: 'L/min at reference conditions',
  source: ISO_6358,
  obtained: 'computed',
});

export const RESTRICTION_FLOW: CheckGroup = {
  title: 'flow through a restriction',
  rows: [
    isoRow(101_325, 0, 6.0795),
    isoRow(101_325, 30_000, 6.0795),
    isoRow(101_325, 50_000, 5.8427),
    isoRow(101_325, 80_000, 4.3456),
    isoRow(101_325, 95_000, 2.5096),
    isoRow(150_000, 101_325, 7.5955),
    isoRow(200_000, 101_325, 11.4653),
    {
      what: 'choked mass flow from one atmosphere',
      actual: () => restrictionKgPerS(VALVE, 101_325, 0, GAS_K) * 1e4,
      expected: 1.2007,
      tolerance: 5e-5,
      unit: '1e-4 kg/s',
      source: ISO_6358,
      obtained: 'computed',
    },
    {
      what: 'highest outlet pressure at which an inlet of 80 psi gauge stays choked',
      actual: highestChokedPsig,
      expected: 35.3,
      tolerance: 0.01,
      unit: 'psi gauge',
      source:
        'gas dynamics, critical ratio 0.528 of air; worked figure on a page on choked orifices',
      obtained: 'seen',
    },
  ],
};

/** By bisection on where the flow begins to fall. */
function highestChokedPsig(): number {
  const inletPsi = 80 + 14.7;
  const air = { sonicConductance: 1e-9, criticalRatio: 0.528 };
  const choked = restrictionKgPerS(air, inletPsi, 0, GAS_K);
  let [low, high] = [0, inletPsi];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (restrictionKgPerS(air, inletPsi, middle, GAS_K) < choked) high = middle;
    else low = middle;
  }
  return low - 14.7;
}

/** Time until the chamber has fallen to `toPa`, between steps by straight line. */
function timeToFallS(
  fromPa: number,
  toPa: number,
  dtS: number,
  stepPa: (pa: number) => number,
): number {
  let pa = fromPa;
  for (let i = 0; ; i++) {
    const after = stepPa(pa);
    if (after <= toPa) return (i + (pa - toPa) / (pa - after)) * dtS;
    pa = after;
  }
}

/** Into a perfect vacuum, so choked all the way. */
function blowDownS(): number {
  const dtS = 1e-6;
  return timeToFallS(1e6, 1e6 / Math.E, dtS, (pa) =>
    stepChamberPa(pa, 0, 0, restrictionKgPerS(VALVE, 0, pa, GAS_K), VOLUME_M3, GAS_K, dtS),
  );
}

/** A rise of 5 Pa in a minute, as a leak of so many kg/s brings it about. */
function riseInAMinutePa(leakPaM3PerS: number): number {
  const kgPerS = leakPaM3PerS / (GAS_CONSTANT_AIR * GAS_K);
  let pa = 1_000;
  for (let i = 0; i < 60_000; i++) {
    pa = stepChamberPa(pa, 101_325, kgPerS, 0, VOLUME_M3, GAS_K, 0.001);
  }
  return pa - 1_000;
}

/**
 * The model's efficiency, linear in the pressure ratio R, is the law of pump-down with an ultimate
 * pressure of the atmosphere over R and a pumping speed of R/(R - 1) of the free flow.
 */
function pumpDownS(greatestRatio: number): number {
  const speedM3PerS = 1e-3 / 60;
  const pump: Pump = {
    freeFlowM3PerS: (speedM3PerS * (greatestRatio - 1)) / greatestRatio,
    greatestRatio,
    deadHeadPa: 1,
    stallRatio: 0,
    startLagS: 1,
    ratedV: 12,
  };
  const dtS = 5e-6;
  return timeToFallS(100_000, 10_000, dtS, (pa) => {
    const kgPerS = -evacuationKgPerS(pump, 1, pa, 100_000, GAS_K);
    return stepChamberPa(pa, 100_000, kgPerS, 0, VOLUME_M3, GAS_K, dtS);
  });
}

const PUMP_DOWN = 'vacuum handbooks, t = V/S ln((p1 - pu)/(p2 - pu)); 20 mL, 1 L/min';

export const CHAMBER_IN_TIME: CheckGroup = {
  title: 'the chamber in time',
  rows: [
    {
      what: 'time constant of isothermal blow-down while choked, V/(C ρ0 R T)',
      actual: blowDownS,
      expected: 0.20057,
      tolerance: 1e-5,
      unit: 's',
      source: `${ISO_6358}, 20 mL, 293.15 K`,
      obtained: 'computed',
    },
    {
      what: 'rise in a minute from a leak of 1.66667e-6 Pa m³/s into 20 mL',
      actual: () => riseInAMinutePa(1.66667e-6),
      expected: 5,
      tolerance: 5e-5,
      unit: 'Pa',
      source: 'leak rate by pressure rise, Q = V dp/dt (formula seen)',
      obtained: 'computed',
    },
    {
      what: 'pump-down from 1000 to 100 mbar with no ultimate pressure',
      actual: () => pumpDownS(1e9),
      expected: 2.7631,
      tolerance: 5e-5,
      unit: 's',
      source: PUMP_DOWN,
      obtained: 'computed',
    },
    {
      what: 'pump-down from 1000 to 100 mbar with an ultimate pressure of 50 mbar',
      actual: () => pumpDownS(20),
      expected: 3.53333,
      tolerance: 5e-5,
      unit: 's',
      source: PUMP_DOWN,
      obtained: 'computed',
    },
  ],
};
