/** What the unit offers on its display: unfinished jobs first, then those that wait, in their order. */
import { join } from 'node:path';
import { type WaitingJob, waitingJobs } from '../../app/attempts/waiting-jobs.ts';
import type { OfferKind, ShownOffer } from '../../panel/choice-face.ts';
import { jobPersonalPath } from '../../store/chain/paths.ts';
import { readPersonal } from '../../store/chain/personal-file.ts';
import { unfinishedJobs } from '../run/attempt-run.ts';
import type { JobsOptions } from './jobs-options.ts';

export interface Offer extends ShownOffer {
  /** The name of the job's record. */
  readonly job: string;
  /** Of a job that waits. */
  readonly files: WaitingJob['files'];
}

const OF_UNFINISHED: readonly OfferKind[] = ['go-on', 'cure-only', 'close-replaced', 'close-other'];

export function offersIn({ jobs, records }: JobsOptions): readonly Offer[] {
  const unfinished = unfinishedJobs(records).flatMap(({ job }) =>
    OF_UNFINISHED.map((kind): Offer => ({ kind, job, name: plateOf(records, job), files: {} })),
  );
  const waiting = waitingJobs(jobs, records).map(
    ({ name, vehicle, files }): Offer => ({
      kind: 'start',
      job: name,
      name: vehicle ?? name,
      files,
    }),
  );
  return [...unfinished, ...waiting];
}

function plateOf(records: string, job: string): string {
  const found = readPersonal(jobPersonalPath(join(records, job)));
  return (found.state === 'there' ? found.personal.fields['vehicle'] : undefined) ?? job;
}
