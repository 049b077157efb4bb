/** Time is counted in the board's, and believed only while the host's agrees. */
import { expect, test } from 'vitest';
import { stepController } from '../../src/control/controller.ts';
import { type Button, isSafe } from '../../src/core/frame.ts';
import { REPAIR } from '../../src/procedure/repair/repair.ts';
import { DEFAULT_CONFIG } from '../configs.ts';
import { HEALTHY_FRAME } from '../frames.ts';

/** A job whose board counts `rate` seconds for each of the host's. */
function jobAt(rate: number) {
  let state = REPAIR.start(DEFAULT_CONFIG);
  let n = 0;
  const tick = (pressed: readonly Button[] = []) => {
    const hostTimeS = 50 + n * 0.05;
    const timeS = n * 0.05 * rate;
    const counts = { ...HEALTHY_FRAME.counts, pressure: 308 + (n % 2) };
    const frame = { ...HEALTHY_FRAME, sequence: n, timeS, sampledAtS: timeS, hostTimeS, counts };
    n += 1;
    const step = stepController(REPAIR, DEFAULT_CONFIG, state, { ...frame, pressed }, []);
    state = step.state;
    return step;
  };
  const pass = (seconds: number) => {
    let step = tick();
    for (let i = 1; i < seconds * 20; i++) step = tick();
    return step;
  };
  return { tick, pass };
}

test('a clock 1.34 times too fast holds the job with an alarm of its own', () => {
  const job = jobAt(1.34);
  const step = job.pass(60);
  expect(step.snapshot.batch).toBe('held');
  expect(isSafe(step.outputs)).toBe(true);
  expect(step.outputs.display[0]).toContain('Board clock wrong');
});

test('and never lets it go on, however often a person says so', () => {
  const job = jobAt(1.34);
  job.pass(60);
  for (let again = 0; again < 20; again++) {
    job.tick(['yes']);
    expect(job.pass(10).snapshot.batch).toBe('held');
  }
});

test('a clock half a per cent off disturbs nothing', () => {
  expect(jobAt(1.005).pass(300).snapshot.batch).toBe('running');
});

test('a board that sends the same moment again and again holds the job', () => {
  const job = jobAt(1);
  job.pass(5);
  const still = jobAt(0);
  still.tick();
  const step = still.pass(2);
  expect(isSafe(step.outputs)).toBe(true);
  expect(step.snapshot.batch).not.toBe('running');
});
