/** A program of its own that runs a repair into a journal as fast as it can, and counts its frames. */
import { writeSync } from 'node:fs';
import { repairInto } from './journaled-repair.ts';

const [path = ''] = process.argv.slice(2);
let frames = 0;
repairInto(path, 1, () => {
  frames += 1;
  writeSync(1, `${frames}\n`);
});
writeSync(1, 'closed\n');
