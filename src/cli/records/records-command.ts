/** `meniscus records`: the commands that work on records, each in a file of its own. */
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
    .description('find, show, verify, export and repair the records of repairs and care')
    .option('--records <folder>', 'folder of the records', 'records')
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
