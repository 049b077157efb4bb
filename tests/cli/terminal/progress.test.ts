import { expect, it } from 'vitest';
import { createProgress, progressLine } from '../../../src/cli/terminal/progress.ts';

/** A terminal, or a pipe, that keeps what is written, and a clock that a test sets. */
function bench(isTTY: boolean) {
  const written: string[] = [];
  const clock = { ms: 0 };
  const out = { isTTY, write: (text: string | Uint8Array) => written.push(String(text)) > 0 };
  return { written, clock, progress: createProgress('checks', 10, out, () => clock.ms) };
}

it('says nothing within the first second', () => {
  const { written, clock, progress } = bench(true);
  clock.ms = 999;
  progress.step();
  progress.clear();
  expect(written).toEqual([]);
});

it('shows how far it is after a second, and takes the line away', () => {
  const { written, clock, progress } = bench(true);
  clock.ms = 1000;
  progress.step(5);
  expect(written.join('')).toContain('50 %, 1 s left');
  progress.clear();
  expect(written.at(-1)).toBe('\r\u001b[2K');
});

it('never writes into a pipe', () => {
  const { written, clock, progress } = bench(false);
  clock.ms = 60_000;
  progress.step(5);
  progress.clear();
  expect(written).toEqual([]);
});

it('fits a terminal of 80 columns', () => {
  expect(progressLine('simulated repairs', 9999, 10_000, 1e7).length).toBeLessThanOrEqual(80);
});
