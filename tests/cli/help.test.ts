import { expect, it } from 'vitest';
import { runProgram, scratchFolder } from './process.ts';

const COMMANDS = [
  'run',
  'simulate',
  'assess',
  'calibrate',
  'care',
  'care log',
  'care test',
  'care history',
  'ports',
  'bench',
  'replay',
  'report',
  'records',
  'records list',
  'records show',
  'records verify',
  'records export',
  'records rebuild',
  'records amend',
  'records remove-personal',
  'records retain',
  'completion',
];

it.each(COMMANDS)('%s --help shows an example, and no default that says nothing', async (name) => {
  const { code, out } = await runProgram([...name.split(' '), '--help'], scratchFolder());
  expect(code).toBe(0);
  expect(out).toMatch(/Examples?: /);
  expect(out).not.toContain('(default: [])');
  expect(out).not.toContain('(default: false)');
});

it.each(['nosuch', 'rnu'])(
  'a command that there is not is called by its name: %s',
  async (name) => {
    const { code, out, err } = await runProgram([name], scratchFolder());
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(`no such command: "${name}"`);
    expect(err).toContain('run, simulate, assess');
  },
);
