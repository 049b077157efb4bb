/**
 * The moments at which faults begin: a copy of the bench at moments of every phase of the sound
 * jobs, each run once. A phase has one moment, the first at power-up. One in which the unit works
 * for long has three: just begun, in the middle, nearly over.
 */
import type { PlantState } from '../../sim/plant/plant-state.ts';
import { CLOSED_PHASES, CURE_PHASES, type PhaseId } from '../../src/core/phases.ts';
import { JOB_IDS, JOBS, type JobId } from './jobs.ts';
import { beginJob, type Log, type RunningJob } from './run-job.ts';
import { type TruthWatch, watchTruth } from './truth.ts';

export interface Moment {
  /** Such as `together.evacuate.1`. */
  readonly id: string;
  readonly jobId: JobId;
  readonly phase: PhaseId;
  readonly atS: number;
  readonly at: RunningJob;
  readonly truth: TruthWatch;
  /** Of the sound job: its plant now, its ticks until now and all of its log. */
  readonly plant: PlantState;
  readonly tick: number;
  readonly sound: Log;
  /** The moments of the same job that come after it. */
  readonly later: () => readonly Moment[];
}

/** Phases of the second job that differ from the first one's. */
const APART_FROM: PhaseId = 'cover-fill';
const SHARES = { powerUp: [0], once: [0.4], thrice: [0.02, 0.5, 0.95] } as const;
/** In a shorter one, three moments are one. */
const LONG_S = 4;

const sharesOf = (phase: PhaseId, works: boolean): readonly number[] =>
  phase === 'self-test' ? SHARES.powerUp : works ? SHARES.thrice : SHARES.once;

/** Where a fault may begin, without the bench at it. */
export type Planned = Pick<Moment, 'id' | 'jobId' | 'phase' | 'atS'>;

/** Every moment of both jobs with this seed, from one run of each. */
export const plannedMoments = (seed: number): readonly Planned[] =>
  JOB_IDS.flatMap((jobId) => planOf(jobId, seed));

/** The same with a copy of the bench at each. */
export const momentsOf = (seed: number): readonly Moment[] =>
  JOB_IDS.flatMap((jobId) => momentsIn(jobId, seed));

function momentsIn(jobId: JobId, seed: number): readonly Moment[] {
  const planned = planOf(jobId, seed);
  const truth = watchTruth();
  // A watch is given to a fork alone.
  let plant: PlantState | null = null;
  const running = beginJob(JOBS[jobId], seed).fork([], (rig) => {
    truth.look(rig);
    plant = rig.plant;
  });
  const moments: Moment[] = [];
  let nowS = 0;
  for (const { id, phase, atS } of planned) {
    while (nowS < atS) {
      const { snapshot } = running.tick();
      truth.enter(snapshot);
      nowS = snapshot.timeS;
    }
    const n = moments.length;
    moments.push({
      id,
      jobId,
      phase,
      atS: nowS,
      at: running.fork([], null),
      truth: truth.copy(),
      plant: structuredClone(plant as unknown as PlantState),
      tick: running.log.ticks.length,
      sound: running.log,
      later: () => moments.slice(n + 1),
    });
  }
  while (!running.tick().state.ended);
  return moments;
}

/** From a first run: when each phase began and ended. */
function planOf(jobId: JobId, seed: number): readonly Planned[] {
  const running = beginJob(JOBS[jobId], seed);
  let last = running.tick();
  while (!last.state.ended) last = running.tick();
  if (last.state.endReason !== 'completed') {
    throw new Error(`the sound job ${jobId} with seed ${seed} ended as ${last.state.endReason}`);
  }
  const phases = running.log.events.flatMap((event) => (event.kind === 'phase' ? [event] : []));
  const from = jobId === 'apart' ? phases.findIndex(({ phase }) => phase === APART_FROM) : 0;
  return phases.slice(from).flatMap(({ phase, timeS }, i) => {
    const untilS = phases[from + i + 1]?.timeS ?? last.snapshot.timeS;
    const works = CLOSED_PHASES.has(phase) || CURE_PHASES.has(phase);
    const shares = sharesOf(phase, works && untilS - timeS > LONG_S);
    return shares.map((share, n) => ({
      id: `${jobId}.${phase}.${n + 1}`,
      jobId,
      phase,
      atS: timeS + share * (untilS - timeS),
    }));
  });
}
