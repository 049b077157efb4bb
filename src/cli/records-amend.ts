/** `meniscus records amend`: adds words to a record; nothing that stands there is ever overwritten. */
import type { Command } from 'commander';
import { removableFields } from '../records/store/removal.ts';
import { problemLine } from '../settings.ts';
import { EXIT } from './exit-codes.ts';
import { namesIn } from './personal.ts';
import { print } from './print.ts';
import { complain, noSuchRecord, type RecordsOptions, withRecords } from './records-open.ts';
import { parseText } from './records-text.ts';

interface AmendOptions extends RecordsOptions {
  readonly text: string;
  readonly by: string;
}

export function addAmend(records: Command): void {
  records
    .command('amend')
    .description('add words to a record')
    .argument('<id>', 'as `meniscus records list` shows it')
    .requiredOption('--text <text>', 'what is to be known', parseText(500))
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
    const named = namesIn(text, removableFields(record));
    if (named.length > 0) {
      const accepted = `a text without personal data, which could not be removed (${named.join(', ')})`;
      complain([problemLine({ file: id, path: '--text', value: JSON.stringify(text), accepted })]);
      return EXIT.badInput;
    }
    const at = new Date().toISOString();
    const entry = store.append({ at, kind: 'amendment', id, body: { text }, personal: { by } });
    print(`${id}: added as entry ${entry.seq}, ${entry.hash}\n`);
    return EXIT.completed;
  });
}
