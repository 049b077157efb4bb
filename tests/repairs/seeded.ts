/** Whole jobs that are run with one seed in every test run, and with more in the long one. */
import { expect } from 'vitest';
import { type BenchRun, runRepair } from '../bench.ts';

/** The further seeds, of the long run. */
export const MORE_SEEDS = [2, 3];

/** Faults of light and time that would show a dose which was not given. */
export const LIARS = [
  'frozen-light-sensor',
  'light-gain',
  'light-zero',
  'fast-board-clock',
  'slow-board-clock',
];

const findings = ({ events }: BenchRun) =>
  events.flatMap((event) =>
    event.kind === 'seal-finding' && event.under === undefined ? [event.finding] : [],
  );

export function expectDried(seed: number): void {
  const run = runRepair({ seed, faults: ['wet-break'] });
  expect(findings(run)).toEqual(['moisture', 'tight']);
  expect(run.enteredS.has('dry-again')).toBe(true);
  expect(run.alarms).toEqual([]);
  expect(run.end).toBe('completed');
}

export function expectOutgassed(seed: number): void {
  const run = runRepair({ seed, faults: ['outgassing'] });
  const [first, ...rest] = findings(run);
  expect(['outgassing', 'unclear']).toContain(first);
  expect(rest.at(-1)).toBe('tight');
  expect(run.enteredS.has('long-pull')).toBe(true);
  expect(run.alarms).toEqual([]);
  expect(run.end).toBe('completed');
}

/** Whether the unit stated a dose, which it does at the end of a cure. */
export const doseStatedIn = ({ events }: BenchRun): boolean =>
  events.some((event) => event.kind === 'measured' && event.name === 'doseJPerM2');

export function expectNotMet(name: string, seed: number): void {
  const run = runRepair({ faults: [name], seed });
  expect(run.end).not.toBe('completed');
  expect(doseStatedIn(run)).toBe(false);
}
