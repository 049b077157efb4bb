/**
 * The moments at which faults begin: from sound jobs, run once, a copy of the bench at moments of
 * every phase. Those of hands have one, those in which the unit works three: just begun, in the
 * middle, nearly over.
 */
import { CLOSED_PHASES, CURE_PHASES, type PhaseId } from '../../src/core/phases.ts';
import { JOB_IDS, JOBS, type JobId } from './jobs.ts';
import { beginJob, type RunningJob } from './run-job.ts';
import { type TruthWatch, watchTruth } from './truth.ts';

export interface Moment {
  /** Such as `together.evacuate.1`. */
  readonly id: string;
  readonly jobId: JobId;
  readonly phase: PhaseId;
  readonly atS: number;
  readonly at: RunningJob;
  readonly truth: TruthWatch;
}

/** Phases of the second job that differ from the first one's. */
const APART_FROM: PhaseId = 'cover-fill';
const SHARES = { ofHands: [0.4], ofTheUnit: [0.02, 0.5, 0.95] } as const;

interface Planned {
  readonly id: string;
  readonly phase: PhaseId;
  readonly atS: number;
}

/** Every moment of both jobs with this seed; cheap to keep, a few tenths of a second to make. */
export const momentsOf = (seed: number): readonly Moment[] =>
  JOB_IDS.flatMap((jobId) => momentsIn(jobId, seed));

function momentsIn(jobId: JobId, seed: number): readonly Moment[] {
  const planned = planOf(jobId, seed);
  const truth = watchTruth();
  // A watch is given to a fork alone.
  const running = beginJob(JOBS[jobId], seed).fork([], truth.look);
  const moments: Moment[] = [];
  let nowS = 0;
  for (const { id, phase, atS } of planned) {
    while (nowS < atS) {
      const { snapshot } = running.tick();
      truth.enter(snapshot);
      nowS = snapshot.timeS;
    }
    moments.push({ id, jobId, phase, atS: nowS, at: running.fork([], null), truth: truth.copy() });
  }
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
    const shares = works ? SHARES.ofTheUnit : SHARES.ofHands;
    return shares.map((share, n) => ({
      id: `${jobId}.${phase}.${n + 1}`,
      phase,
      atS: timeS + share * (untilS - timeS),
    }));
  });
}
