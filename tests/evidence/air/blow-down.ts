/**
 * A vessel that empties through a choked opening: isothermal and polytropic closed forms, and a
 * textbook's emptying time of a tank. The demo's manifold blows down into a far lower pressure.
 */
import {
  MOLAR_MASS_KG_PER_MOL,
  REFERENCE_K,
  REFERENCE_KG_PER_M3,
  type Restriction,
} from '../../../sim/plant/air/flow.ts';
import { GAS_CONSTANT_J_PER_MOL_K } from '../../../sim/plant/air/gas-constant.ts';
import type { CheckGroup, CheckRow, Plot } from '../check.ts';
import { GAS_K, pressureAfterPa, STILL, timeToFallS, vesselUnit } from './air-bench.ts';
import { holeOf } from './restriction-flow.ts';

const VALVE: Restriction = { sonicConductance: 1e-9, criticalRatio: 0.3 };
const UNIT = vesselUnit(20e-6, { vent: VALVE });
const START_PA = 1e6;
const OUTSIDE_PA = 1e5;
const GAS_J_PER_KG_K = GAS_CONSTANT_J_PER_MOL_K / MOLAR_MASS_KG_PER_MOL;

const opening = (exponent: number) => ({
  ...STILL,
  ventOpen: true,
  atmospherePa: OUTSIDE_PA,
  gas: { exponent },
});

/** V/(C rho0 R sqrt(T T0)) at the temperature that the vessel has at its start, s. */
function timeConstantS(exponent: number): number {
  const startK = GAS_K * (START_PA / OUTSIDE_PA) ** ((exponent - 1) / exponent);
  return 20e-6 / (1e-9 * REFERENCE_KG_PER_M3 * GAS_J_PER_KG_K * Math.sqrt(startK * REFERENCE_K));
}

/** p/p0 = (1 + (g - 1)/2 t/tau)^(-2 g/(g - 1)); exp(-t/tau) at g = 1. */
function closedFormPa(exponent: number, timeS: number): number {
  const times = timeS / timeConstantS(exponent);
  if (exponent === 1) return START_PA * Math.exp(-times);
  return START_PA * (1 + ((exponent - 1) / 2) * times) ** ((-2 * exponent) / (exponent - 1));
}

const modelPa = (exponent: number, timeS: number, dtS: number): number =>
  pressureAfterPa(UNIT, opening(exponent), START_PA, timeS, dtS);

/** A third of what doubling the step changes, twice over for the terms of third order. */
const stepErrorPa = (exponent: number, timeS: number): number =>
  (2 / 3) * Math.abs(modelPa(exponent, timeS, 0.002) - modelPa(exponent, timeS, 0.001));

const form = (exponent: number, timeS: number): CheckRow => ({
  what: `pressure ${timeS} s into a blow-down from 10 bar, exponent ${exponent}`,
  actual: () => modelPa(exponent, timeS, 0.001),
  expected: closedFormPa(exponent, timeS),
  tolerance: stepErrorPa(exponent, timeS),
  unit: 'Pa',
  source:
    'closed form of choked blow-down (gas-dynamics texts, from memory; derivable); tolerance is the step error at 1 ms, by Richardson, twice over',
  obtained: 'computed',
});

/** Time until a quarter of the gas is gone, over V/(A sqrt(R T)). */
function quarterGone(): number {
  const hole = holeOf(0.0005);
  const unit = vesselUnit(20e-6, { vent: hole });
  const timeS = timeToFallS(unit, opening(1), START_PA, 0.75 * START_PA, 1e-5);
  const areaM2 = (Math.PI / 4) * 0.0005 * 0.0005;
  return (timeS * areaM2 * Math.sqrt(GAS_J_PER_KG_K * GAS_K)) / 20e-6;
}

export const BLOW_DOWN: CheckGroup = {
  title: 'blow-down of a vessel',
  rows: [
    {
      what: 'time constant of isothermal blow-down while choked, V/(C ρ0 R T)',
      actual: () =>
        timeToFallS(UNIT, { ...opening(1), atmospherePa: 1e3 }, 1e6, 1e6 / Math.E, 1e-5),
      expected: 0.20057,
      tolerance: 1e-5,
      unit: 's',
      source:
        'ISO 6358-1 flow law with C = 1e-9 m³/(s Pa), 1.185 kg/m³ (density from memory), 20 mL, 293.15 K',
      obtained: 'computed',
    },
    form(1, 0.06),
    form(1, 0.1),
    form(1, 0.2),
    form(1.2, 0.06),
    form(1.2, 0.14),
    form(1.4, 0.02),
    form(1.4, 0.06),
    form(1.4, 0.1),
    {
      what: 'time for a quarter of the gas to leave a tank at constant temperature, over V/(A √(R T))',
      actual: quarterGone,
      expected: -Math.log(0.75) / 0.685,
      // The exercise gives its factor to three digits.
      tolerance: 0.0005,
      unit: 'ratio',
      source: 'exercise of a fluid-mechanics textbook, ṁ = 0.685 p A/√(R T), as quoted by a page',
      obtained: 'computed',
    },
  ],
  plots: () => [curves()],
};

function curves(): Plot {
  const times = Array.from({ length: 41 }, (_, i) => i * 0.005);
  const points = Array.from({ length: 6 }, (_, i) => i * 0.02);
  return {
    title: 'Blow-down of 20 mL from 10 bar through 0.1 dm³/(s bar)',
    xLabel: 'time (s)',
    yLabel: 'pressure (Pa)',
    scale: 'log y',
    lines: [1, 1.2, 1.4].map((exponent) => ({
      label: `model, exponent ${exponent}`,
      x: times,
      y: times.map((t) => modelPa(exponent, t, 0.001)),
    })),
    points: [1, 1.2, 1.4].map((exponent) => ({
      label: `closed form, exponent ${exponent}`,
      x: points,
      y: points.map((t) => closedFormPa(exponent, t)),
    })),
  };
}
