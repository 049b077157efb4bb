/**
 * The air side against an adaptive solver of the same equations, implemented independently: two
 * nodes, pump, vent, relief valve and seal, at the plant's step of 1 ms. Tolerances are the model's
 * own step error, by Richardson from steps of 1 and 2 ms (second order, proved in its tests).
 */
import { type AirState, stepAir } from '../../../sim/plant/air/air.ts';
import type { AirDrive } from '../../../sim/plant/air/air-flows.ts';
import { type AirUnit, DEMO_AIR_UNIT } from '../../../sim/plant/air/air-unit.ts';
import type { CheckGroup, CheckRow, Plot } from '../check.ts';
import reference from '../reference/air.json' with { type: 'json' };
import { AIR_PA, STILL, vesselAt } from './air-bench.ts';

interface Case {
  readonly name: keyof typeof reference;
  readonly startPa: number;
  readonly drive: AirDrive;
  readonly unit: AirUnit;
}

const TIGHT: AirDrive = { ...STILL, seal: { sonicConductance: 5e-14, criticalRatio: 0.3 } };
const STRONG = { ...DEMO_AIR_UNIT.pump, freeFlowM3PerS: 1e-4, deadHeadPa: 600_000 };
const CASES: readonly Case[] = [
  {
    name: 'pump-down',
    startPa: AIR_PA,
    drive: { ...TIGHT, pumpRatio: 1 },
    unit: DEMO_AIR_UNIT,
  },
  {
    name: 'vent from pressure',
    startPa: 300_000,
    drive: { ...TIGHT, ventOpen: true },
    unit: DEMO_AIR_UNIT,
  },
  {
    name: 'pressurise with relief',
    startPa: AIR_PA,
    drive: { ...TIGHT, pumpRatio: 1, selector: 'pressure' },
    unit: { ...DEMO_AIR_UNIT, pump: STRONG },
  },
  {
    name: 'leak rise',
    startPa: 9_000,
    drive: { ...TIGHT, seal: { sonicConductance: 2e-12, criticalRatio: 0.3 } },
    unit: DEMO_AIR_UNIT,
  },
  {
    name: 'supply sag',
    startPa: AIR_PA,
    drive: { ...TIGHT, pumpRatio: 1, supplyV: 9 },
    unit: DEMO_AIR_UNIT,
  },
];

function run({ startPa, drive, unit }: Case, timeS: number, dtS: number): AirState {
  const state = vesselAt(unit, drive, startPa);
  state.pumpSpeedRatio = 0;
  const steps = Math.round(timeS / dtS);
  for (let i = 0; i < steps; i++) stepAir(state, unit, drive, dtS);
  return state;
}

type Node = 'manifoldPa' | 'injectorPa';

/** The solver's rtol of 1e-10 a step over its few hundred steps. */
const SOLVER_RELATIVE = 3e-8;

function rowsOf(one: Case, node: Node): CheckRow[] {
  const { timesS, [node]: pressuresPa } = reference[one.name];
  return timesS.map((timeS, i) => {
    const expected = pressuresPa[i] ?? Number.NaN;
    const doubled = Math.abs(run(one, timeS, 0.002)[node] - run(one, timeS, 0.001)[node]);
    return {
      what: `${one.name}: ${node === 'manifoldPa' ? 'manifold' : 'injector'} after ${timeS} s`,
      actual: () => run(one, timeS, 0.001)[node],
      expected,
      // A third of what doubling the step changes, twice over for the terms of third order.
      tolerance: (2 / 3) * doubled + SOLVER_RELATIVE * expected,
      unit: 'Pa',
      source:
        'reference/air.md, scipy Radau at rtol 1e-10; tolerance is the step error at 1 ms, by Richardson, twice over',
      obtained: 'independent solver',
    };
  });
}

function plots(): Plot[] {
  return CASES.filter(({ name }) => name !== 'leak rise' && name !== 'supply sag').map((one) => {
    const { timesS, manifoldPa } = reference[one.name];
    const endS = timesS.at(-1) ?? 0;
    const times = Array.from({ length: 51 }, (_, i) => Math.round(20 * i * endS) / 1000);
    return {
      title: `Air side: ${one.name}`,
      xLabel: 'time (s)',
      yLabel: 'manifold pressure (Pa)',
      lines: [{ label: 'model', x: times, y: times.map((t) => run(one, t, 0.001).manifoldPa) }],
      points: [{ label: 'solver', x: timesS, y: manifoldPa }],
    };
  });
}

export const AIR_BY_SOLVER: CheckGroup = {
  title: 'air side, independent solver',
  rows: CASES.flatMap((one) => [...rowsOf(one, 'manifoldPa'), ...rowsOf(one, 'injectorPa')]),
  plots,
};
