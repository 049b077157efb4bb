/**
 * A run without problems prints nothing on stderr: the program's own lines report problems only.
 */
import { expect, test } from 'vitest';
import { runProgram, scratchFolder } from '../process.ts';

const folder = scratchFolder();

test('nothing is printed on stderr by help, by a repair that goes well, or by its report', async () => {
  const help = await runProgram(['--help'], folder);
  expect(help).toMatchObject({ code: 0, err: '' });
  const repair = await runProgram(['run', '--speed', 'max'], folder);
  expect(repair).toMatchObject({ code: 0, err: '' });
  const report = await runProgram(['report', 'demo-0001'], folder);
  expect(report).toMatchObject({ code: 0, err: '' });
});
