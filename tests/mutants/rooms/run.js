#!/usr/bin/env node
/**
 * Puts single changes into the rooms that decide and reports which no test notices:
 * `npm run mutants` for all of them, `npm run mutants -- cure safety/guard` for some. What was judged
 * before and has not changed since, source or tests, is not judged again.
 */
import { mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Stryker } from '@stryker-mutator/core';

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
const asked = process.argv.slice(2);
const wanted = asked.length > 0 ? asked : Object.keys(ROOMS);
const unknown = wanted.filter((name) => ROOMS[name.split('/')[0]] === undefined);
if (unknown.length > 0) {
  const accepted = `${Object.keys(ROOMS).join(', ')}, or a file of one such as safety/guard`;
  console.error(`no such room: ${unknown.join(', ')}; accepted: ${accepted}`);
  process.exit(2);
}

const scores = [];
for (const name of wanted) {
  const [room, ...file] = name.split('/');
  const { folder, tests } = ROOMS[room];
  const results = await judge(
    room,
    tests,
    file.length > 0 ? `${folder}/${file.join('/')}.ts` : `${folder}/**/*.ts`,
  );
  const count = (...states) => results.filter(({ status }) => states.includes(status)).length;
  const killed = count('Killed', 'Timeout');
  const judged = killed + count('Survived', 'NoCoverage');
  const share = judged === 0 ? 100 : (100 * killed) / judged;
  scores.push(`${name.padEnd(24)}${killed} of ${judged} killed, ${share.toFixed(1)} %`);
}
console.log(`\n${scores.join('\n')}`);

/** Takes a few seconds a change; the tests of a room are first run once without any. */
function judge(room, tests, mutate) {
  process.env.MENISCUS_MUTANT_TESTS = tests.join(',');
  return new Stryker({
    testRunner: 'vitest',
    vitest: { configFile: 'tests/mutants/rooms/vitest.config.ts', related: false },
    plugins: ['@stryker-mutator/vitest-runner'],
    mutate: [mutate],
    coverageAnalysis: 'perTest',
    ignoreStatic: true,
    incremental: true,
    incrementalFile: `${CACHE}/${room}.json`,
    tempDirName: '.mutants',
    timeoutMS: 10_000,
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
