import fc from 'fast-check';
import { expect, test } from 'vitest';
import { BATCH_STATES, type BatchState } from '../../src/core/events.ts';
import { type BatchCommand, isEnded, nextBatchState } from '../../src/procedure/batch.ts';

const COMMANDS: readonly BatchCommand[] = [
  'start',
  'hold',
  'restart',
  'stop',
  'abort',
  'settled',
  'finish',
];

test('a held job leaves that state by a person only: restart, stop or abort', () => {
  const ways = COMMANDS.filter((command) => nextBatchState('held', command) !== null);
  expect(ways).toEqual(['restart', 'stop', 'abort']);
});

test('nothing leads out of an ended job', () => {
  for (const state of BATCH_STATES.filter(isEnded)) {
    for (const command of COMMANDS) expect(nextBatchState(state, command)).toBeNull();
  }
});

test('abort is taken in every state that is not ending already', () => {
  const takers = BATCH_STATES.filter((state) => nextBatchState(state, 'abort') === 'aborting');
  expect(takers).toEqual(['idle', 'running', 'holding', 'held', 'restarting', 'stopping']);
});

test('whatever the commands, a job that runs again after a hold was restarted by a person', () => {
  let runsAgain = 0;
  // Long enough for one that is held to be let go on; an end is left out, since nothing leads on.
  const going = COMMANDS.filter((command) => !['stop', 'abort', 'finish'].includes(command));
  const commands = fc.array(fc.constantFrom(...going), { minLength: 30, maxLength: 80 });
  const ending = fc.array(fc.constantFrom(...COMMANDS));
  fc.assert(
    fc.property(commands, ending, (first, last) => {
      let state: BatchState = 'idle';
      let consent = true;
      for (const command of [...first, ...last]) {
        const next: BatchState | null = nextBatchState(state, command);
        if (next === 'holding') consent = false;
        if (next !== null && command === 'restart') consent = true;
        if (next === 'running' && state === 'restarting') runsAgain += 1;
        if (next === 'running') expect(consent).toBe(true);
        state = next ?? state;
      }
    }),
  );
  expect(runsAgain).toBeGreaterThan(50);
});
