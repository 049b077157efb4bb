/**
 * Runs a job on the simulated board, from its beginning or from a moment of a sound one, and keeps
 * what its record would hold. It is the pipeline's loop without its streams, for speed: the same
 * frames, the same step, the outputs written before time passes.
 */
import type { PlantWatch } from '../../sim/board/rig.ts';
import { createSimulatedBoard, type SimulatedBoard } from '../../sim/board/simulated-board.ts';
import type { Fault } from '../../sim/faults/faults.ts';
import { type ControllerStep, stepController } from '../../src/control/controller.ts';
import type { Event, Snapshot } from '../../src/core/events.ts';
import type { Frame } from '../../src/core/frame.ts';
import type { JournalTick } from '../../src/journal/tick-line.ts';
import { REPAIR } from '../../src/procedure/repair/repair.ts';
import type { Repair } from '../../src/procedure/repair/repair-state.ts';
import type { Job } from './jobs.ts';

/** What the journal would keep of a job. */
export interface Log {
  readonly ticks: JournalTick[];
  readonly events: Event[];
  readonly snapshots: Snapshot[];
}

export interface RunningJob {
  readonly job: Job;
  readonly board: SimulatedBoard;
  readonly log: Log;
  /** One tick; what the controller made of its frame. */
  readonly tick: () => ControllerStep<Repair>;
  /** Without time passing; whoever watches sees every step of the plant from now on. */
  readonly fork: (faults: readonly Fault[], watch: PlantWatch | null) => RunningJob;
}

type State = ControllerStep<Repair>['state'];

export const beginJob = (job: Job, seed: number): RunningJob =>
  goingOn(job, createSimulatedBoard(job.scenario(seed)), REPAIR.start(job.settings.config), {
    ticks: [],
    events: [],
    snapshots: [],
  });

function goingOn(job: Job, board: SimulatedBoard, from: State, log: Log): RunningJob {
  let state = from;
  let step: ControllerStep<Repair> | null = null;
  board.frames$.subscribe((frame) => {
    step = stepController(REPAIR, job.settings.config, state, frame, []);
    state = step.state;
    board.write(step.outputs);
    keep(log, frame, step);
  });
  return {
    job,
    board,
    log,
    tick: () => {
      board.tick();
      if (step === null) throw new Error('no frame came');
      return step;
    },
    fork: (faults, watch) =>
      goingOn(job, board.fork(faults, watch), state, {
        ticks: [...log.ticks],
        events: [...log.events],
        snapshots: [...log.snapshots],
      }),
  };
}

/** As `journal-consumer.ts` thins them. */
const SNAPSHOT_EVERY_S = 0.25;

export function keep(
  { ticks, events, snapshots }: Log,
  frame: Frame,
  step: ControllerStep<Repair>,
): void {
  const { outputs, snapshot } = step;
  ticks.push({ frame, requests: NO_REQUESTS, actuators: outputs });
  if (step.events.length > 0) events.push(...step.events);
  const last = snapshots.at(-1);
  const due =
    last === undefined ||
    snapshot.timeS - last.timeS >= SNAPSHOT_EVERY_S - 1e-9 ||
    snapshot.phase !== last.phase ||
    snapshot.batch !== last.batch;
  if (due) snapshots.push(snapshot);
}

const NO_REQUESTS: JournalTick['requests'] = [];
