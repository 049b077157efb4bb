/** `meniscus jobs list`: the jobs that wait, and those that are not finished. */
import type { Command } from 'commander';
import type { OpenJob } from '../../app/attempts/open-jobs.ts';
import { type WaitingJob, waitingJobs } from '../../app/attempts/waiting-jobs.ts';
import { escapedValue } from '../../core/plain-text.ts';
import { ENGLISH_RECORD } from '../../report/language.ts';
import { joulesPerCm2, nameIn } from '../../report/words.ts';
import { unfinishedJobs } from '../run/attempt-run.ts';
import { EXIT } from '../terminal/exit-codes.ts';
import { print } from '../terminal/print.ts';
import type { JobsOptions } from './jobs-options.ts';

interface ListOptions extends JobsOptions {
  readonly json: boolean;
}

export function addJobsList(jobs: Command): void {
  jobs
    .command('list', { isDefault: true })
    .description('jobs that wait, and jobs that are not finished')
    .option('--json', 'as JSON', false)
    .addHelpText('after', '\nExample: meniscus jobs list --records records\n')
    .action((_, command: Command) => {
      const { jobs, records, json } = command.optsWithGlobals<ListOptions>();
      const unfinished = unfinishedJobs(records);
      const waiting = waitingJobs(jobs, records);
      const lines = [...waitingLines(waiting), ...listLines(unfinished)];
      const text = json ? JSON.stringify({ waiting, unfinished }, null, 2) : lines.join('\n');
      print(`${text}\n`);
      process.exitCode = EXIT.completed;
    });
}

const waitingLines = (waiting: readonly WaitingJob[]): readonly string[] =>
  waiting.length === 0
    ? ['No job waits.']
    : waiting.map(({ number, name, vehicle }) =>
        escapedValue(`${number}  ${name}  ${vehicle ?? 'no plate on its sheet'}`),
      );

const listLines = (open: readonly OpenJob[]): readonly string[] =>
  open.length === 0
    ? ['No job is unfinished.']
    : [
        ...open.flatMap(jobLines),
        'meniscus run --resume JOB, --cure-only JOB; meniscus jobs close JOB',
      ];

function jobLines({ job, attempts, end, doseJPerM2, targetJPerM2 }: OpenJob): readonly string[] {
  const often = attempts === 1 ? '1 attempt' : `${attempts} attempts`;
  if (end === null) return [`${job}  ${often}, cut off before its end, or still running`];
  const how = nameIn(ENGLISH_RECORD.ends, end.reason);
  const joules = (jPerM2: number | null): string =>
    jPerM2 === null ? '-' : joulesPerCm2(jPerM2).toFixed(2);
  const dose = `${joules(doseJPerM2)} of ${joules(targetJPerM2)} J/cm2`;
  return [`${job}  ${often}, ${how}, ${dose}`, `  ${end.why}`];
}
