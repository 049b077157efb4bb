/**
 * `meniscus jobs add`: puts a job that was planned with `meniscus assess` into the list. Its files are
 * checked and copied, so that the list does not change with the folder that they came from.
 */
import { copyFileSync, existsSync } from 'node:fs';
import { join } from 'node:path';
import type { Command } from 'commander';
import { JOB_FILES, type JobFile, listedJobs } from '../../app/attempts/waiting-jobs.ts';
import { readBottle } from '../../app/prepare/job-bottle.ts';
import { loadSettings } from '../../app/prepare/load-settings.ts';
import { readJson } from '../../app/prepare/read-settings.ts';
import { type Checked, problemLine, type SettingsProblem } from '../../core/settings.ts';
import { closeToOthers, makePrivateFolder } from '../../journal/private-file.ts';
import { attemptsIn } from '../../store/verify/unrecorded.ts';
import { recordName } from '../run/record-name.ts';
import { EXIT } from '../terminal/exit-codes.ts';
import { localDay } from '../terminal/local-day.ts';
import { complain } from '../terminal/open-records.ts';
import { print } from '../terminal/print.ts';
import type { JobsOptions } from './jobs-options.ts';

interface AddOptions extends JobsOptions {
  readonly resin?: string;
  readonly pitResin?: string;
}

export function addJobsAdd(jobs: Command): void {
  jobs
    .command('add')
    .description('add a planned job to the list')
    .argument('<folder>', 'what `meniscus assess --out` wrote, with its job.json')
    .option('--resin <file>', 'bottle of resin (JSON), where the folder has no resin.json')
    .option('--pit-resin <file>', 'bottle of pit resin (JSON)')
    .addHelpText('after', '\nExample: meniscus jobs add job-7 --resin resin.json\n')
    .action(async (folder: string, _, command: Command) => {
      process.exitCode = await addJob(folder, command.optsWithGlobals<AddOptions>());
    });
}

async function addJob(folder: string, options: AddOptions): Promise<number> {
  const files = filesIn(folder, options);
  const checked = await checkedName(files, options);
  if (!checked.ok) {
    complain(checked.problems.map(problemLine));
    return EXIT.badInput;
  }
  const number = (listedJobs(options.jobs).at(-1)?.number ?? 0) + 1;
  const place = join(options.jobs, `${String(number).padStart(3, '0')}-${checked.value}`);
  makePrivateFolder(place);
  for (const [option, source] of Object.entries(files)) {
    const copy = join(place, JOB_FILES[option as JobFile]);
    copyFileSync(source, copy);
    closeToOthers(copy);
  }
  print(`${checked.value}: added as number ${number} of ${options.jobs}\n`);
  return EXIT.completed;
}

type Files = Readonly<Partial<Record<JobFile, string>>>;

function filesIn(folder: string, { resin, pitResin }: AddOptions): Files {
  const found = Object.entries(JOB_FILES)
    .map(([option, name]) => [option, join(folder, name)] as const)
    .filter(([option, path]) => option === 'job' || existsSync(path));
  return {
    ...Object.fromEntries(found),
    ...(resin !== undefined && { resin }),
    ...(pitResin !== undefined && { pitResin }),
  };
}

/** The name of its record, where files and list allow it. */
async function checkedName(
  { job, profile, intake, resin, pitResin }: Files,
  { jobs, records }: AddOptions,
): Promise<Checked<string>> {
  const bottles = [resin, pitResin].map((one) => (one === undefined ? null : readBottle(one)));
  const [fill, pit] = bottles.map((one) => (one?.ok === true ? one.value : null));
  const loaded = loadSettings({ job, profile }, { fill: fill ?? null, pit: pit ?? null });
  const problems = [...bottles, loaded].flatMap((one) =>
    one === null || one.ok ? [] : one.problems,
  );
  if (!loaded.ok || problems.length > 0) return { ok: false, problems };
  const sheet = loaded.value.config.job;
  if (intake !== undefined) {
    const read = readJson(intake);
    if (!read.ok) return read;
    const { jobIntake } = await import('../../app/prepare/job-intake.ts');
    const judged = jobIntake(
      { file: intake, raw: read.value },
      sheet,
      job ?? '',
      localDay(new Date()),
      loaded.value.papers.drawing,
    );
    if (!judged.ok) return judged;
  }
  const name = recordName(sheet.reference);
  const taken = takenBy(name, jobs, records);
  if (taken === null) return { ok: true, value: name };
  const problem: SettingsProblem = {
    file: job ?? '',
    path: 'reference',
    value: JSON.stringify(sheet.reference),
    accepted: `a reference that no other job has: ${taken}`,
  };
  return { ok: false, problems: [problem] };
}

function takenBy(name: string, jobs: string, records: string): string | null {
  if (attemptsIn(records, name).length > 0) return `${join(records, name)} is a record`;
  const listed = listedJobs(jobs).find((one) => one.name === name);
  return listed === undefined ? null : `${listed.folder} is in the list`;
}
