/** `meniscus records amend`: adds words to a record; nothing in it is ever overwritten. */
import type { Command } from 'commander';
import { problemLine } from '../../core/settings.ts';
import { removableFields } from '../../store/removal.ts';
import { EXIT } from '../terminal/exit-codes.ts';
import {
  complain,
  noSuchRecord,
  type RecordsOptions,
  withRecords,
} from '../terminal/open-records.ts';
import { print } from '../terminal/print.ts';
import { namesSomebody, parseText } from '../terminal/records-text.ts';

interface AmendOptions extends RecordsOptions {
  readonly text: string;
  readonly by: string;
}

export function addAmend(records: Command): void {
  records
    .command('amend')
    .description('add words to a record')
    .argument('<id>', 'as shown by `meniscus records list`')
    .requiredOption('--text <text>', 'the text to add', parseText(500))
    .requiredOption('--by <name>', 'a name or a role', parseText(40))
    .addHelpText(
      'after',
      '\nExample: meniscus records amend demo-0001 --text "Leg grew after a day." --by "quality"\n',
    )
    .action(async (id: string, _, command: Command) => {
      process.exitCode = await amend(id, command.optsWithGlobals<AmendOptions>());
    });
}

function amend(id: string, { records, text, by }: AmendOptions): Promise<number> {
  return withRecords(records, 'write', (store) => {
    const record = store.show(id);
    if (record === null) return noSuchRecord(records, id);
    const problem = namesSomebody('--text', text, id, removableFields(record));
    if (problem !== null) {
      complain([problemLine(problem)]);
      return EXIT.badInput;
    }
    const at = new Date().toISOString();
    const entry = store.append({ at, kind: 'amendment', id, body: { text }, personal: { by } });
    print(`${id}: added as entry ${entry.seq}, ${entry.hash}\n`);
    return EXIT.completed;
  });
}
