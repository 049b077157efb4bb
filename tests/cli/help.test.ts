import { expect, it } from 'vitest';
import { runHere } from './here.ts';
import { scratchFolder } from './process.ts';

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
  const { code, out } = await runHere([...name.split(' '), '--help'], scratchFolder());
  expect(code).toBe(0);
  expect(out).toMatch(/Examples?: /);
  expect(out).not.toContain('(default: [])');
  expect(out).not.toContain('(default: false)');
});

it.each([
  ['nosuch', 'run, simulate, assess'],
  ['rnu', 'run, simulate, assess'],
  ['care hist', 'log, test, history'],
  ['records shwo', 'list, show, verify'],
])('a command that there is not is called by its name: %s', async (name, accepted) => {
  const words = name.split(' ');
  const { code, out, err } = await runHere(words, scratchFolder());
  expect({ code, out }).toEqual({ code: 2, out: '' });
  expect(err).toContain(`no such command: "${words.at(-1)}"`);
  for (const word of accepted.split(', ')) expect(err).toContain(word);
});
