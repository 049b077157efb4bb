/**
 * A repair whose chamber, pump, valves and seal are the plant's own air side, while everything else
 * is hand-made: quick, and it can be forked at any moment, so that one job is tried with many
 * faults. Between controller and plant sits a pressure sensor that may lie.
 */
import { type AirState, createAir, stepAir } from '../../sim/plant/air/air.ts';
import type { AirDrive } from '../../sim/plant/air/air-flows.ts';
import { DEMO_AIR_UNIT } from '../../sim/plant/air/air-unit.ts';
import { DEMO_FOOT, pressedRestriction } from '../../sim/plant/air/foot.ts';
import { ISOTHERMAL } from '../../sim/plant/air/gas-model.ts';
import { GRIT_CONDUCTANCE } from '../../sim/plant/air/seal.ts';
import { createChance } from '../../sim/random.ts';
import type { PhaseId } from '../../src/core/phases.ts';
import { REPAIR } from '../../src/procedure/repair/repair.ts';
import type { Repair, RepairConfig } from '../../src/procedure/repair/repair-state.ts';
import { APART } from '../control/apart-driver.ts';
import { TICK_S, tick, type Unit, unitAtRest } from '../steered-unit.ts';
import { mayAnswer } from '../steering.ts';

export interface World {
  readonly atmospherePa: number;
  /** Share of the pump's flow that is left. */
  readonly pumpFlowRatio: number;
  /** Leak besides that of a clean ring, as a share of the demo's grit. */
  readonly gritRatio: number;
  readonly pumpRuns: boolean;
  readonly hoseOn: boolean;
}

export const SOUND_WORLD: World = {
  atmospherePa: 100_600,
  pumpFlowRatio: 1,
  gritRatio: 0,
  pumpRuns: true,
  hoseOn: true,
};

/** Counts that the converter gives for the true counts, s after the sensor began to lie. */
export type Sensor = (counts: number, sinceS: number) => number;
const HONEST: Sensor = (counts) => counts;

export interface Bench {
  readonly unit: Unit<Repair>;
  readonly air: AirState;
  readonly world: World;
  readonly sensor: Sensor;
  readonly lyingForS: number;
}

/** Counts per pascal of the demo transmitter: 0.8 of the converter over 400 kPa. */
export const COUNTS_PER_PA = (0.8 * 1023) / 400_000;
export const countsOf = (pa: number): number => 0.1 * 1023 + pa * COUNTS_PER_PA;

const GAS_K = 296.15;
const STEPS_PER_TICK = 50;
/** The converter's own, and a thousand draws of it. */
const NOISE_COUNTS = 0.5;
const noise = createChance(7, 'noise');
const NOISES = Array.from({ length: 1009 }, () => NOISE_COUNTS * noise.gaussian());

export const benchAtRest = (world = SOUND_WORLD, config: RepairConfig = APART): Bench => ({
  unit: unitAtRest(REPAIR, config, world.atmospherePa),
  air: createAir(DEMO_AIR_UNIT, world.atmospherePa, GAS_K),
  world,
  sensor: HONEST,
  lyingForS: 0,
});

/** A second bench that goes its own way from here. */
export const forked = (bench: Bench, change: Partial<Bench> = {}): Bench => ({
  ...bench,
  air: structuredClone(bench.air),
  ...change,
});

const sealOf = ({ gritRatio, atmospherePa }: World, { injectorPa }: Bench['air']) =>
  pressedRestriction(DEMO_FOOT, injectorPa - atmospherePa, gritRatio * GRIT_CONDUCTANCE);

/** One tick of plant and controller; the bench that is handed in is used up. */
export function stepBench(bench: Bench, no: readonly PhaseId[] = ['ask-bubbles']): Bench {
  const { unit, air, world, sensor } = bench;
  const { pumpRatio, selector, ventOpen } = unit.state.commanded;
  const drive: AirDrive = {
    pumpRatio: world.pumpRuns ? pumpRatio : 0,
    selector,
    ventOpen,
    supplyV: 12.5 - 0.4 * air.pumpSpeedRatio,
    pumpFlowRatio: world.pumpFlowRatio,
    atmospherePa: world.atmospherePa,
    gasK: GAS_K,
    seal: sealOf(world, air),
    foot: DEMO_FOOT,
    hoseOn: world.hoseOn,
    gas: ISOTHERMAL,
    manifoldLeak: null,
    sourceMolPerS: 0,
  };
  for (let n = 0; n < STEPS_PER_TICK; n++) stepAir(air, DEMO_AIR_UNIT, drive, 1e-3);
  const exact = countsOf(air.manifoldPa) + (NOISES[unit.ticks % NOISES.length] ?? 0);
  const pressure = Math.round(sensor(Math.round(exact), bench.lyingForS));
  const answer = no.includes(unit.state.procedure.phase) ? 'no' : 'yes';
  const after = tick(unit, {
    counts: { pressure: Math.min(1023, Math.max(0, pressure)) },
    supplyV: drive.supplyV,
    pressed: mayAnswer(unit) ? [answer] : [],
  });
  return { ...bench, unit: after, lyingForS: bench.lyingForS + TICK_S };
}

/** Until the job has been in that phase for so long. */
export function benchIn(bench: Bench, phase: PhaseId, afterS = 0): Bench {
  let now = bench;
  for (let n = 0; n < 20_000; n++) {
    const { phase: at, elapsedS } = now.unit.state.procedure;
    if (at === phase && elapsedS >= afterS - 1e-6) return now;
    if (now.unit.state.batch !== 'running' && now.unit.ticks > 1) break;
    now = stepBench(now);
  }
  throw new Error(`never ${afterS} s in ${phase}: ${JSON.stringify(now.unit.log.at(-1))}`);
}

/** The alarms that were raised, in order. */
export const alarmsOf = ({ unit }: Bench): readonly string[] =>
  unit.log.flatMap((e) => (e.kind === 'alarm' && e.to === 'unacknowledged' ? [e.alarm] : []));
