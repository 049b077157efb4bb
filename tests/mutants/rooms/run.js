#!/usr/bin/env node
/**
 * Puts single changes into the rooms that decide and reports which no test notices:
 * `npm run mutants` for all of them, `npm run mutants -- cure safety/guard` for some. What was judged
 * before and has not changed since, source or tests, is not judged again. A room takes hours:
 * `--sample 60 --seed 1` judges only the changes within 60 lines of each, drawn at random.
 */
import { mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { Stryker } from '@stryker-mutator/core';
import { sampleOfLines } from './sample.js';

const CACHE = 'node_modules/.cache/mutants';
/** Each room with the tests that state what it does; the controller's are about every room below it. */
const ROOMS = {
  safety: { folder: 'src/safety', tests: ['safety', 'control'] },
  signal: { folder: 'src/signal', tests: ['signal', 'safety'] },
  cure: { folder: 'src/cure', tests: ['cure', 'control'] },
  procedure: { folder: 'src/procedure', tests: ['procedure', 'control'] },
  control: { folder: 'src/control', tests: ['control', 'safety', 'procedure'] },
  chain: { folder: 'src/store/chain', tests: ['store'] },
};

process.chdir(fileURLToPath(new URL('../../..', import.meta.url)));
mkdirSync(CACHE, { recursive: true });
const { wanted, lines, seed } = options();

const scores = [];
for (const name of wanted) {
  const [room, ...file] = name.split('/');
  const { folder, tests } = ROOMS[room];
  const source = file.length > 0 ? `${folder}/${file.join('/')}.ts` : folder;
  const whole = file.length > 0 ? source : `${folder}/**/*.ts`;
  const mutate = lines === null ? [whole] : sampleOfLines(source, lines, seed);
  const results = await judge(room, tests, mutate);
  const count = (...states) => results.filter(({ status }) => states.includes(status)).length;
  const timedOut = count('Timeout');
  const killed = count('Killed') + timedOut;
  const judged = killed + count('Survived', 'NoCoverage');
  const share = judged === 0 ? 100 : (100 * killed) / judged;
  const late = timedOut === 0 ? '' : `, ${timedOut} of them by never ending`;
  scores.push(`${name.padEnd(24)}${killed} of ${judged} killed, ${share.toFixed(1)} %${late}`);
}
console.log(`\n${scores.join('\n')}`);

function options() {
  try {
    const { values, positionals } = parseArgs({
      allowPositionals: true,
      options: { sample: { type: 'string' }, seed: { type: 'string', default: '1' } },
    });
    const rooms = Object.keys(ROOMS);
    const unknown = positionals.filter((name) => ROOMS[name.split('/')[0]] === undefined);
    if (unknown.length > 0) {
      const accepted = `${rooms.join(', ')}, or a file of one such as safety/guard`;
      throw new Error(`no such room: ${unknown.join(', ')}; accepted: ${accepted}`);
    }
    return {
      wanted: positionals.length > 0 ? positionals : rooms,
      lines: values.sample === undefined ? null : wholeNumber('sample', values.sample),
      seed: wholeNumber('seed', values.seed),
    };
  } catch (error) {
    console.error(error.message);
    process.exit(2);
  }
}

function wholeNumber(name, given) {
  if (/^[1-9]\d{0,5}$/.test(given)) return Number(given);
  throw new Error(`--${name} is ${given}; accepted: a whole number from 1 to 999999`);
}

/** Takes a few seconds a change; the tests of a room are first run once without any. */
function judge(room, tests, mutate) {
  process.env.MENISCUS_MUTANT_TESTS = tests.join(',');
  return new Stryker({
    testRunner: 'vitest',
    // The rooms that run whole jobs take longer than the five minutes that are usual.
    dryRunTimeoutMinutes: 30,
    vitest: { configFile: 'tests/mutants/rooms/vitest.config.ts', related: false },
    plugins: ['@stryker-mutator/vitest-runner'],
    mutate,
    coverageAnalysis: 'perTest',
    ignoreStatic: true,
    incremental: true,
    incrementalFile: `${CACHE}/${room}.json`,
    tempDirName: '.mutants',
    timeoutMS: 60_000,
    concurrency: 2,
    allowConsoleColors: false,
    reporters: ['clear-text', 'progress-append-only'],
    clearTextReporter: {
      allowColor: false,
      logTests: false,
      reportTests: false,
      reportScoreTable: false,
    },
  }).runMutationTest();
}
