import { Subject } from 'rxjs';
import { describe, expect, test } from 'vitest';
import type { Board } from '../../../hal/board.ts';
import { ENGLISH_WORDS } from '../../../src/app/prepare/terminal-words.ts';
import { createSafeWatch, seenSafeWords } from '../../../src/cli/run/seen-safe.ts';
import type { Frame } from '../../../src/core/frame.ts';
import { INITIAL_SIGNAL_MEMORY } from '../../../src/signal/decode.ts';
import { DEFAULT_UNIT } from '../../configs.ts';
import { HEALTHY_FRAME } from '../../frames.ts';

const TICK_S = 0.05;

/** Frames after the end of a job, with the light sensor's counts at each time after it. */
function seenIn(countsAt: (s: number) => number, mute = false) {
  const frames$ = new Subject<Frame>();
  let madeSafe = 0;
  const board = { frames$, makeSafe: () => (madeSafe += 1) } as unknown as Board;
  const watch = createSafeWatch(board, DEFAULT_UNIT.channels);
  let endedAtS: number | null = null;
  let sentS = 0;
  watch.begin(INITIAL_SIGNAL_MEMORY, () => {
    endedAtS ??= sentS;
  });
  for (let tick = 0; tick < 60; tick++) {
    sentS = tick * TICK_S;
    frames$.next({
      ...HEALTHY_FRAME,
      sequence: tick,
      timeS: 100 + sentS,
      sampledAtS: mute ? 100 : 100 + sentS,
      link: mute ? 'mute' : 'up',
      counts: { ...HEALTHY_FRAME.counts, irradiance: countsAt(sentS) },
    });
  }
  return { madeSafe, endedAtS, result: watch.result() };
}

const LIT = 400;
const DARK = HEALTHY_FRAME.counts.irradiance ?? 0;

describe('a run that ends', () => {
  test('makes safe first, and says what a sample after that showed', () => {
    const { madeSafe, result } = seenIn((s) => (s < 0.1 ? LIT : DARK));
    expect(madeSafe).toBe(1);
    expect(result?.afterS).toBeGreaterThanOrEqual(0.3);
    expect(seenSafeWords(result, ENGLISH_WORDS)).toMatch(
      /^Seen 0\.3 s after .* light 0\.0 mW\/cm2, pressure /,
    );
  });

  test('says so where the light is still there: nothing is taken for granted', () => {
    const { result } = seenIn(() => LIT);
    expect(result?.lightWPerM2).toBeGreaterThan(10);
    expect(seenSafeWords(result, ENGLISH_WORDS)).not.toContain('light 0.0 mW/cm2');
  });

  test('waits no longer than a second for a board that sends nothing', () => {
    const { result, endedAtS } = seenIn(() => DARK, true);
    expect(result).toBeNull();
    expect(endedAtS).toBeCloseTo(1, 1);
    expect(seenSafeWords(result, ENGLISH_WORDS)).toMatch(/^Not seen safe/);
  });
});
