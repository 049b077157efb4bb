/**
 * `meniscus jobs next`: runs the first job that waits. With `--wait` it stays: the unit's display
 * offers the list, a person takes a job there, and after it the list is offered again.
 */
import type { Command } from 'commander';
import { waitingJobs } from '../../app/attempts/waiting-jobs.ts';
import { loadSettings } from '../../app/prepare/load-settings.ts';
import { problemLine } from '../../core/settings.ts';
import type { Crew } from '../run/model-session.ts';
import { openSession } from '../run/open-session.ts';
import { type RunOptions, runCommand } from '../run/run-command.ts';
import { withUnitOptions } from '../run/run-options.ts';
import { EXIT } from '../terminal/exit-codes.ts';
import { print, printError } from '../terminal/print.ts';
import { refuse } from '../terminal/refuse.ts';
import { closeJob } from './jobs-close.ts';
import type { JobsOptions } from './jobs-options.ts';
import { offerOnDisplay } from './offer-on-display.ts';
import { type Offer, offersIn } from './offers.ts';

interface NextOptions extends JobsOptions, Omit<RunOptions, 'records'> {
  readonly wait: boolean;
}

export function addJobsNext(jobs: Command): void {
  withUnitOptions(jobs.command('next').description('run the next job of the list'))
    .option('--wait', 'stay, and offer the list on the display of the unit', false)
    .option('--hours-later <h>', 'simulated time since the last attempt of a job', Number, 1)
    .addHelpText(
      'after',
      '\nExamples: meniscus jobs next\n          meniscus jobs next --wait --port auto\n',
    )
    .action(async (_, command: Command) => {
      const given = command.optsWithGlobals<NextOptions>();
      const options = { ...given, override: [], json: false };
      process.exitCode = await (options.wait ? offerAndRun(options) : runNext(options));
    });
}

async function runNext(options: NextOptions): Promise<number> {
  const [job] = waitingJobs(options.jobs, options.records);
  if (job === undefined) {
    print('No job waits.\n');
    return EXIT.completed;
  }
  return await runCommand({ ...options, ...job.files });
}

/** Until it is ended from outside; a scripted person ends when nothing is offered any more. */
async function offerAndRun(options: NextOptions): Promise<number> {
  if (options.manual && !process.stdin.isTTY) {
    printError('--manual needs a terminal to press keys in.\n');
    return EXIT.badInput;
  }
  const loaded = loadSettings(options);
  if (!loaded.ok) return refuse(loaded.problems.map(problemLine));
  const { config } = loaded.value;
  const scripted = options.port === undefined && !options.manual;
  const refused = new Set<string>();
  const offers = (): readonly Offer[] =>
    offersIn(options).map((one) => ({ ...one, refused: refused.has(keyOf(one)) }));
  for (let code: number = EXIT.completed; ; ) {
    const left = offers().filter((one) => one.refused !== true);
    if (scripted && left.length === 0) return code;
    const opened = await openSession(options, config, scripted ? TAKES_FIRST : null);
    if (!opened.ok) return refuse(opened.lines);
    const taken = await offerOnDisplay(
      opened.session,
      scripted ? () => left : offers,
      config.catalogue,
    );
    if (taken === null) return EXIT.interrupted;
    code = await carryOut(taken, options);
    if (code === EXIT.interrupted) return code;
    if (code === EXIT.badInput) refused.add(keyOf(taken));
    else refused.clear();
  }
}

const keyOf = ({ kind, job }: Offer): string => `${kind} ${job}`;

/** Presses YES once it has had time to read. */
const TAKES_FIRST: Crew = {
  who: 'technician',
  join: ({ press }) => ({
    person: (timeS) => {
      if (Math.abs(timeS - READS_FOR_S) < 0.03) press('yes');
    },
    reference: () => null,
  }),
};
const READS_FOR_S = 2;

const REASONS = {
  'close-replaced': 'the pane is replaced',
  'close-other': 'decided at the unit, for another reason',
} as const;

async function carryOut({ kind, job, files }: Offer, options: NextOptions): Promise<number> {
  switch (kind) {
    case 'start':
      return await runCommand({ ...options, ...files });
    case 'go-on':
      return await runCommand({ ...options, resume: job });
    case 'cure-only':
      return await runCommand({ ...options, cureOnly: job });
    default:
      return await closeJob(job, {
        records: options.records,
        reason: REASONS[kind],
        by: 'a person at the unit',
      });
  }
}
