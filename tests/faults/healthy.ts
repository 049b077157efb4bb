/** Sound jobs with a seed each: other sensors, another break, another pace of hands. */
import type { FalseClaim } from './claims.ts';
import { JOB_IDS, JOBS } from './jobs.ts';
import { judge } from './judge.ts';
import { watchLimits } from './limits.ts';
import { beginJob } from './run-job.ts';
import { watchTruth } from './truth.ts';

export interface HealthyResult {
  readonly seed: number;
  readonly alarms: readonly string[];
  readonly end: string | null;
  /** Shown, and not so in truth. */
  readonly falseClaims: readonly FalseClaim[];
}

const LONGEST_TICKS = 40_000;

export function runHealthy(seed: number): HealthyResult {
  const job = JOBS[JOB_IDS[seed % JOB_IDS.length] ?? 'together'];
  const truth = watchTruth();
  const limits = watchLimits();
  // A watch is given to a fork alone.
  const running = beginJob(job, seed).fork([], (rig) => {
    truth.look(rig);
    limits.look(rig);
  });
  let step = running.tick();
  for (let n = 0; n < LONGEST_TICKS && !step.state.ended; n++) {
    truth.enter(step.snapshot);
    step = running.tick();
  }
  const alarms = running.log.events.flatMap((event) =>
    event.kind === 'alarm' && event.to === 'unacknowledged' ? [event.alarm] : [],
  );
  const { result } = judge({
    id: `healthy/${seed}`,
    rows: [],
    job,
    board: running.board.identity,
    log: running.log,
    fromEvent: 0,
    fromS: 0,
    faults: [],
    breaches: limits.breaches(),
    truth: truth.truth(),
  });
  return { seed, alarms, end: step.state.endReason, falseClaims: result.falseClaims };
}
