/** `meniscus jobs`: the jobs of the day and those that are not finished, a file for each command. */
import type { Command } from 'commander';
import { addJobsClose } from './jobs-close.ts';
import { addJobsList } from './jobs-list.ts';

export function addJobsCommand(program: Command): void {
  const jobs = program
    .command('jobs')
    .description('list the jobs that wait or are not finished, and close one with a reason')
    .option('--records <folder>', 'folder of the records', 'records')
    .addHelpText('after', '\nExample: meniscus jobs list\n');
  for (const add of [addJobsList, addJobsClose]) add(jobs);
}
