/** `meniscus jobs list`: the jobs that are not finished, with what can be done about each. */
import type { Command } from 'commander';
import type { OpenJob } from '../../app/attempts/open-jobs.ts';
import { END_WORDS, joulesPerCm2 } from '../../report/words.ts';
import { unfinishedJobs } from '../run/attempt-run.ts';
import { EXIT } from '../terminal/exit-codes.ts';
import type { RecordsOptions } from '../terminal/open-records.ts';
import { print } from '../terminal/print.ts';

interface ListOptions extends RecordsOptions {
  readonly json: boolean;
}

export function addJobsList(jobs: Command): void {
  jobs
    .command('list', { isDefault: true })
    .description('jobs that are not finished')
    .option('--json', 'as JSON', false)
    .addHelpText('after', '\nExample: meniscus jobs list --records records\n')
    .action((_, command: Command) => {
      const { records, json } = command.optsWithGlobals<ListOptions>();
      const open = unfinishedJobs(records);
      print(json ? `${JSON.stringify(open, null, 2)}\n` : `${listLines(open).join('\n')}\n`);
      process.exitCode = EXIT.completed;
    });
}

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
  const how = END_WORDS[end.reason as keyof typeof END_WORDS] ?? end.reason;
  const joules = (jPerM2: number | null): string =>
    jPerM2 === null ? '-' : joulesPerCm2(jPerM2).toFixed(2);
  const dose = `${joules(doseJPerM2)} of ${joules(targetJPerM2)} J/cm2`;
  return [`${job}  ${often}, ${how}, ${dose}`, `  ${end.why}`];
}
