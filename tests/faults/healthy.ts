/** Sound jobs with a seed each: other sensors, another break, another pace of hands. */
import { JOB_IDS, JOBS } from './jobs.ts';
import { beginJob } from './run-job.ts';

export interface HealthyResult {
  readonly seed: number;
  readonly alarms: readonly string[];
  readonly end: string | null;
}

const LONGEST_TICKS = 40_000;

export function runHealthy(seed: number): HealthyResult {
  const jobId = JOB_IDS[seed % JOB_IDS.length] ?? 'together';
  const running = beginJob(JOBS[jobId], seed);
  let step = running.tick();
  for (let n = 0; n < LONGEST_TICKS && !step.state.ended; n++) step = running.tick();
  const alarms = running.log.events.flatMap((event) =>
    event.kind === 'alarm' && event.to === 'unacknowledged' ? [event.alarm] : [],
  );
  return { seed, alarms, end: step.state.endReason };
}
