/**
 * A separate program that takes a folder's lock, reports it, and keeps it for a given number of
 * milliseconds.
 */
import { writeFileSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { withChainLock } from '../../../src/store/chain/chain-lock.ts';

const [folder = '', ms = '0'] = process.argv.slice(2);
withChainLock(folder, () => {
  writeSync(1, 'held\n');
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, Number(ms));
  writeFileSync(join(folder, 'others'), '');
});
