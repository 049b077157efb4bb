/**
 * One unattended repair on the simulated board as fast as possible, and its result: no panel, no
 * journal. `simulate-command.ts` decides which runs are made and how they are shown.
 */
import { merge, tap } from 'rxjs';
import { createSimulatedBoard } from '../../../sim/board/simulated-board.ts';
import { type Consumer, createPipeline } from '../../app/pipeline.ts';
import type { EndReason, Event, Outcome } from '../../core/events.ts';
import type { Measurement } from '../../core/measurements.ts';
import { REPAIR } from '../../procedure/repair/repair.ts';
import type { Repair, RepairConfig } from '../../procedure/repair/repair-state.ts';
import { createPacer } from './pace.ts';
import type { ScenarioOptions } from './simulated-scenario.ts';
import { scenarioOf } from './simulated-scenario.ts';

export interface RunResult {
  readonly seed: number;
  readonly reason: EndReason;
  readonly outcome: Outcome | null;
  readonly why: string;
  readonly boardS: number;
  readonly cycles: number;
  /** True state of the simulated break at the end, 0 to 1. */
  readonly filledRatio: number;
  /** Last measured value; null where the job ended before one. */
  readonly vacuumReachedPa: number | null;
  readonly pressureReachedPa: number | null;
  readonly doseJPerM2: number | null;
  readonly lampOnS: number | null;
  readonly alarms: readonly string[];
}

/** Longer than any job that has not hung, s of board time. */
const LONGEST_S = 4 * 3600;

export async function simulatedRun(
  options: ScenarioOptions,
  config: RepairConfig,
): Promise<RunResult> {
  const checked = scenarioOf(options, config);
  if (!checked.ok) throw new Error('the scenario failed a check that it passed before');
  const board = createSimulatedBoard(checked.value);
  const events: Event[] = [];
  let boardS = 0;
  const pacer: { stop: () => void } = { stop: () => undefined };
  const faults: unknown[] = [];
  const fail = (error: unknown): void => {
    faults.push(error);
    pacer.stop();
  };
  const clock = ({ timeS }: { readonly timeS: number }): void => {
    boardS = timeS;
    if (boardS > LONGEST_S) fail(new Error('the run did not end'));
  };
  const result: Consumer<Repair> = {
    name: 'result',
    follow: ({ readings$, events$ }) =>
      merge(readings$.pipe(tap(clock)), events$.pipe(tap((event) => events.push(event)))),
  };
  const pipeline = createPipeline(board, REPAIR, config, [result], {
    onConsumerError: (_, error) => fail(error),
    onFault: fail,
    onEnd: () => pacer.stop(),
  });
  const running = createPacer(board.tick, checked.value.tickS, 'max');
  pacer.stop = running.stop;
  await running.done;
  pipeline.close();
  if (faults.length > 0) throw faults[0];
  return resultOf(options.seed, events, boardS, board.view().filledRatio);
}

function resultOf(
  seed: number,
  events: readonly Event[],
  boardS: number,
  filledRatio: number,
): RunResult {
  const end = events.find((event): event is Event & { kind: 'end' } => event.kind === 'end');
  const last = (name: Measurement): number | null =>
    events.findLast(
      (event): event is Event & { kind: 'measured' } =>
        event.kind === 'measured' && event.name === name && event.portion === null,
    )?.value ?? null;
  return {
    seed,
    reason: end?.reason ?? 'fault',
    outcome: end?.outcome ?? null,
    why: end?.why ?? 'The run ended without a reason.',
    boardS,
    cycles: Math.max(0, ...events.map((event) => (event.kind === 'phase' ? event.cycle : 0))),
    filledRatio,
    vacuumReachedPa: last('vacuumReachedPa'),
    pressureReachedPa: last('pressureReachedPa'),
    doseJPerM2: last('doseJPerM2'),
    lampOnS: last('lampOnS'),
    alarms: events.flatMap((event) =>
      event.kind === 'alarm' && event.to === 'unacknowledged' ? [event.alarm] : [],
    ),
  };
}
