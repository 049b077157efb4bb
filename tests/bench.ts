/**
 * Runs a whole job on the simulated board in lock-step and keeps what happened. Invariants are
 * checked on every frame of every run.
 */

import { tap } from 'rxjs';
import { createSimulatedBoard, type SimulatedBoard } from '../sim/board/simulated-board.ts';
import { FAULT_PRESETS } from '../sim/faults/faults.ts';
import type { Scenario } from '../sim/faults/scenario.ts';
import { worldOf } from '../sim/plant/world.ts';
import { createPipeline, type Pipeline, type Tick } from '../src/app/pipeline.ts';
import { statedLightOf } from '../src/cli/run/stated-light.ts';
import { boardLimitsOf } from '../src/control/board-limits.ts';
import type { EndReason, Event, Snapshot } from '../src/core/events.ts';
import type { PhaseId } from '../src/core/phases.ts';
import { REPAIR } from '../src/procedure/repair/repair.ts';
import type { Repair, RepairConfig } from '../src/procedure/repair/repair-state.ts';
import { partsOf } from '../src/procedure/repair/work-plan.ts';
import { DEFAULT_CONFIG } from './configs.ts';
import { checkBalance, checkInvariants } from './invariants.ts';

export interface BenchOptions {
  readonly seed?: number;
  readonly faults?: readonly string[];
  readonly config?: RepairConfig;
  readonly scenario?: Partial<Scenario>;
  /** Looks at the stress at the longest leg's tip. */
  readonly watchesTip?: boolean;
  /** Looks at every tick; may press, ask, or stop the run by returning true. */
  readonly watch?: (tick: Tick<Repair>, board: SimulatedBoard, pipeline: Pipeline) => boolean;
}

export interface BenchRun {
  readonly events: readonly Event[];
  readonly end: EndReason | null;
  readonly outcome: string | null;
  readonly last: Tick<Repair>;
  readonly snapshots: readonly Snapshot[];
  readonly board: SimulatedBoard;
  /** Board time at which each phase was entered first. */
  readonly enteredS: ReadonlyMap<PhaseId, number>;
  readonly alarms: readonly string[];
  /** Null unless `watchesTip`: the stress takes a tenth of the run's time. */
  readonly tip: TipDanger | null;
}

/** Stress intensity at the longest leg's tip over that at which slow growth begins, in the plant. */
export interface TipDanger {
  /** Looked at once a second and at each alarm. */
  readonly greatest: number;
  /** Null where no alarm was raised. */
  readonly atFirstAlarm: number | null;
}

const LONGEST_S = 5400;

export function scenarioFor({ seed = 1, faults = [], scenario, config }: BenchOptions): Scenario {
  const used = config ?? DEFAULT_CONFIG;
  const { job } = used;
  return {
    seed,
    tickS: 0.05,
    atmospherePa: 100_600,
    airK: job.airK,
    glassK: job.glassK,
    world: worldOf({ ...job.damage, partsM: partsOf(used) }, job.resin.viscosityPaSAt20C),
    light: statedLightOf(used),
    glassFloor: boardLimitsOf(used.unit).glassFloor,
    faults: faults.flatMap((name) => {
      const preset = FAULT_PRESETS[name];
      if (preset === undefined) throw new Error(`no fault ${name}`);
      return preset.faults;
    }),
    technician: 'scripted',
    ...scenario,
  };
}

export function runRepair(options: BenchOptions = {}): BenchRun {
  const config = options.config ?? DEFAULT_CONFIG;
  const scenario = scenarioFor(options);
  const board = createSimulatedBoard(scenario);
  const events: Event[] = [];
  const snapshots: Snapshot[] = [];
  const tip = options.watchesTip ? tipWatch(board) : null;
  const failures: unknown[] = [];
  let last: Tick<Repair> | null = null;
  let over = false;
  const take = (tick: Tick<Repair>): void => {
    checkInvariants(tick, last, board.view(), config);
    last = tick;
    events.push(...tick.events);
    snapshots.push(tick.snapshot);
    tip?.look(tick);
  };
  const pipeline: Pipeline = createPipeline(
    board,
    REPAIR,
    config,
    [{ name: 'bench', follow: ({ ticks$ }) => ticks$.pipe(tap(take)) }],
    {
      onConsumerError: (_, error) => failures.push(error),
      onFault: (error) => failures.push(error),
      onEnd: () => {
        over = true;
      },
    },
  );
  for (let t = 0; t < LONGEST_S / scenario.tickS && !over; t++) {
    board.tick();
    if (failures.length > 0) throw failures[0];
    if (last !== null && options.watch?.(last, board, pipeline)) break;
  }
  if (last === null) throw new Error('no tick');
  checkBalance(board.view());
  const end = events.find((event) => event.kind === 'end');
  const enteredS = new Map<PhaseId, number>();
  for (const event of events) {
    if (event.kind === 'phase' && !enteredS.has(event.phase))
      enteredS.set(event.phase, event.timeS);
  }
  return {
    events,
    end: end?.kind === 'end' ? end.reason : null,
    outcome: end?.kind === 'end' ? end.outcome : null,
    last,
    snapshots,
    board,
    enteredS,
    tip: tip?.danger() ?? null,
    alarms: events.flatMap((event) =>
      event.kind === 'alarm' && event.to === 'unacknowledged' ? [event.alarm] : [],
    ),
  };
}

function tipWatch(board: SimulatedBoard) {
  let greatest = 0;
  let atFirstAlarm: number | null = null;
  return {
    look: ({ frame, events }: Tick<Repair>): void => {
      const alarmed = events.some(({ kind }) => kind === 'alarm');
      if (!alarmed && frame.sequence % 20 !== 0) return;
      const ratio = board.view().truth.slowGrowthRatio();
      greatest = Math.max(greatest, ratio);
      if (alarmed) atFirstAlarm ??= ratio;
    },
    danger: (): TipDanger => ({ greatest, atFirstAlarm }),
  };
}
