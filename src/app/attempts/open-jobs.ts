/**
 * The jobs that are not finished: their last attempt did not come to its end, and nobody closed
 * them. Read from the chain and from journals that have no entry in it.
 */
import { isTrueAt, numberAt, textAt } from '../../core/fields.ts';
import type { ChainEntry } from '../../store/chain/chain-entry.ts';
import { attemptId, attemptOfId } from '../../store/chain/paths.ts';
import { unrecordedJobs } from '../../store/verify/unrecorded.ts';

export interface OpenJob {
  readonly job: string;
  /** The record of its last attempt. */
  readonly last: string;
  readonly attempts: number;
  /** How the last attempt ended; null where its journal has no entry: it runs, or was cut off. */
  readonly end: { readonly reason: string; readonly why: string } | null;
  readonly endedAt: string | null;
  readonly doseJPerM2: number | null;
  readonly targetJPerM2: number | null;
}

/** In the order in which their first attempts were recorded. */
export function openJobsIn(folder: string, entries: Iterable<ChainEntry>): readonly OpenJob[] {
  const jobs = new Map<string, OpenJob>();
  const recorded = new Set<string>();
  for (const { kind, id, body } of entries) {
    const { job, number } = attemptOfId(id);
    if (kind === 'repair') {
      recorded.add(id);
      if (textAt(body, 'result', 'endReason') === 'completed') jobs.delete(job);
      else jobs.set(job, openJob(job, number, body));
    }
    if (kind === 'amendment' && isTrueAt(body, 'closes')) jobs.delete(job);
  }
  for (const id of unrecordedJobs(folder, recorded)) {
    const { job, number } = attemptOfId(id);
    jobs.set(job, openJob(job, number, null));
  }
  return [...jobs.values()];
}

function openJob(job: string, attempts: number, body: unknown): OpenJob {
  const reason = textAt(body, 'result', 'endReason');
  return {
    job,
    last: attemptId(job, attempts),
    attempts,
    end: reason === null ? null : { reason, why: textAt(body, 'result', 'why') ?? '' },
    endedAt: textAt(body, 'endedAt'),
    doseJPerM2: numberAt(body, 'dose', 'doseJPerM2'),
    targetJPerM2: numberAt(body, 'dose', 'targetJPerM2'),
  };
}
