import { spawnSync } from 'node:child_process';
import { expect, it } from 'vitest';
import { FAULT_NAMES } from '../../src/cli/run/simulated-scenario.ts';
import { runHere } from './here.ts';
import { scratchFolder } from './process.ts';

const offered = async (...words: string[]): Promise<string[]> => {
  const { out } = await runHere(['complete', '--', ...words], scratchFolder());
  return out
    .split('\n')
    .flatMap((line) => (/^:\d/.test(line) || line === '' ? [] : [line.split('\t')[0] ?? '']));
};

it('offers every command that the help names', async () => {
  const { out } = await runHere(['--help'], scratchFolder());
  const named = [...out.matchAll(/^ {2}([a-z]+)\b/gm)].map(([, name]) => name);
  const commands = named.filter((name) => name !== 'help');
  expect(commands.length).toBeGreaterThan(5);
  const all = await offered('');
  for (const command of commands) expect(all).toContain(command);
});

it('offers the faults that there are after --fault, and only those that fit', async () => {
  expect(await offered('run', '--fault', '')).toEqual(FAULT_NAMES);
  expect(await offered('run', '--fault', 'hose')).toEqual(['hose-off']);
});

it('offers options of the command in hand', async () => {
  expect(await offered('run', '--sp')).toEqual(['--speed']);
});

it.each(['bash', 'zsh', 'fish', 'powershell'])('prints a script for %s', async (shell) => {
  const { code, out } = await runHere(['completion', shell], scratchFolder());
  expect(code).toBe(0);
  expect(out).toContain('meniscus');
});

it('prints a script that bash takes', async () => {
  const { out } = await runHere(['completion', 'bash'], scratchFolder());
  const { status, stdout } = spawnSync('bash', ['-c', `${out}\ncomplete -p meniscus`], {
    encoding: 'utf8',
  });
  expect(status).toBe(0);
  expect(stdout).toContain('meniscus');
});
