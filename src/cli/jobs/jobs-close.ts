/**
 * `meniscus jobs close`: says of an unfinished job that it ends here, and why. The words are added to
 * the record of its last attempt; nothing in it is overwritten.
 */
import type { Command } from 'commander';
import { problemLine } from '../../core/settings.ts';
import type { RecordsStore } from '../../store/records-store.ts';
import { removableFields } from '../../store/removal.ts';
import { enteredLast } from '../run/attempt-run.ts';
import { EXIT } from '../terminal/exit-codes.ts';
import { complain, type RecordsOptions, withRecords } from '../terminal/open-records.ts';
import { print } from '../terminal/print.ts';
import { namesSomebody, parseText } from '../terminal/records-text.ts';

export interface CloseOptions extends RecordsOptions {
  readonly reason: string;
  readonly by: string;
}

export function addJobsClose(jobs: Command): void {
  jobs
    .command('close')
    .description('close an unfinished job with a reason')
    .argument('<job>', 'as `meniscus jobs list` shows it')
    .requiredOption('--reason <text>', 'reason; it stays in the record', parseText(200))
    .requiredOption('--by <name>', 'a name or a role', parseText(40))
    .addHelpText(
      'after',
      '\nExample: meniscus jobs close demo-0001 --reason "the pane is replaced" --by "A. Person"\n',
    )
    .action(async (job: string, _, command: Command) => {
      process.exitCode = await closeJob(job, command.optsWithGlobals<CloseOptions>());
    });
}

export async function closeJob(job: string, options: CloseOptions): Promise<number> {
  const { records, reason, by } = options;
  const found = enteredLast(records, job);
  if (!found.ok) {
    complain(found.lines);
    return EXIT.badInput;
  }
  const { last } = found.value;
  return withRecords(records, 'write', (store) => {
    const problem = namesSomebody('--reason', reason, last, peopleIn(store, last));
    if (problem !== null) {
      complain([problemLine(problem)]);
      return EXIT.badInput;
    }
    const at = new Date().toISOString();
    const body = { text: `Closed: ${reason}`, closes: true };
    const entry = store.append({ at, kind: 'amendment', id: last, body, personal: { by } });
    print(`${job}: closed, entry ${entry.seq}, ${entry.hash}\n`);
    return EXIT.completed;
  });
}

function peopleIn(store: RecordsStore, id: string): Readonly<Record<string, string>> {
  const record = store.show(id);
  return record === null ? {} : removableFields(record);
}
