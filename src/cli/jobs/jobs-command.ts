/** `meniscus jobs`: the jobs of the day and those that are not finished, a file for each command. */
import type { Command } from 'commander';
import { addJobsAdd } from './jobs-add.ts';
import { addJobsClose } from './jobs-close.ts';
import { addJobsList } from './jobs-list.ts';
import { addJobsNext } from './jobs-next.ts';

export function addJobsCommand(program: Command): void {
  const jobs = program
    .command('jobs')
    .description('the jobs of the day, and those that are not finished')
    .option('--records <folder>', 'folder of the records', 'records')
    .option('--jobs <folder>', 'folder of the list of jobs', 'jobs')
    .addHelpText('after', '\nExample: meniscus jobs list\n');
  for (const add of [addJobsList, addJobsAdd, addJobsNext, addJobsClose]) add(jobs);
}
