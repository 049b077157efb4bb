/** `meniscus records`: what can be asked of the records and done with them; each in a file of its own. */
import type { Command } from 'commander';
import { addAmend } from './records-amend.ts';
import { addExport } from './records-export.ts';
import { addList } from './records-list.ts';
import { addRebuild } from './records-rebuild.ts';
import { addRemovePersonal, addRetain } from './records-remove.ts';
import { addShow } from './records-show.ts';
import { addVerify } from './records-verify.ts';

export function addRecordsCommand(program: Command): void {
  const records = program
    .command('records')
    .description('find, show, verify, export and mend the records of repairs and care')
    .option('--records <folder>', 'where records are', 'records')
    .addHelpText('after', '\nExample: meniscus records list --result bad\n');
  for (const add of [
    addList,
    addShow,
    addVerify,
    addExport,
    addRebuild,
    addAmend,
    addRemovePersonal,
    addRetain,
  ]) {
    add(records);
  }
}
