/** The emulated board as the session of a run: its pace, the keys for hands, its end. */
import { expect, onTestFinished, test } from 'vitest';
import { ENGLISH_WORDS } from '../../../src/app/prepare/terminal-words.ts';
import { EMULATED_FAULT_NAMES } from '../../../src/cli/run/emulated-faults.ts';
import { emulatedSession } from '../../../src/cli/run/emulated-session.ts';
import type { ModelOptions } from '../../../src/cli/run/model-session.ts';
import type { Session } from '../../../src/cli/run/session.ts';
import type { Frame } from '../../../src/core/frame.ts';
import { DEFAULT_CONFIG } from '../../configs.ts';

const OPTIONS: ModelOptions = { manual: false, seed: 1, altitude: 60, fault: [] };

async function opened(options: Partial<ModelOptions> = {}): Promise<Session> {
  const session = await emulatedSession({ ...OPTIONS, ...options }, DEFAULT_CONFIG);
  if (!session.ok) throw new Error(session.lines.join());
  onTestFinished(() => session.session.board.close());
  return session.session;
}

/** Runs until so many frames have come. */
async function framesOf(
  { board, run }: Session,
  many: number,
  onFrame: (frame: Frame) => void = () => undefined,
): Promise<readonly Frame[]> {
  const frames: Frame[] = [];
  const pacer: { stop: () => void } = { stop: () => undefined };
  const listening = board.frames$.subscribe((frame) => {
    frames.push(frame);
    onFrame(frame);
    if (frames.length >= many) pacer.stop();
  });
  const running = run();
  pacer.stop = running.stop;
  await running.done;
  listening.unsubscribe();
  return frames;
}

test('its time runs no faster than asked for', async () => {
  const session = await opened({ speed: 1 });
  const startMs = performance.now();
  const frames = await framesOf(session, 40);
  const boardS = (frames.at(-1)?.timeS ?? 0) - (frames[0]?.timeS ?? 0);
  expect(boardS).toBeCloseTo(39 * 0.05, 1);
  // Two ticks for the first frame, which may have come before the pace began.
  expect((performance.now() - startMs) / 1000).toBeGreaterThan(boardS - 0.1);
});

test('no frame comes after the one that stops it', async () => {
  const session = await opened();
  for (const many of [3, 4, 5, 6]) expect(await framesOf(session, many)).toHaveLength(many);
});

test('somebody at the keyboard runs it in real time, reaches its buttons and switches, and sees the shield', async () => {
  const session = await opened({ manual: true });
  expect(session.title(ENGLISH_WORDS)).toBe(
    'Meniscus, emulated board (demo), you press the buttons, seed 1, 1 x real time',
  );
  const keys = [
    { kind: 'button', button: 'yes' },
    { kind: 'emergency-stop' },
    { kind: 'shield' },
  ] as const;
  const fast = await opened({ manual: true, speed: 'max' });
  const before = fast.look(ENGLISH_WORDS.terminal.panel);
  const after = await framesOf(fast, 20, ({ sequence }) => {
    if (sequence === 5) for (const key of keys) fast.act(key, () => undefined);
  });
  expect(after.flatMap(({ pressed }) => pressed)).toEqual(['yes']);
  expect(after[0]?.switches).toMatchObject({ emergencyStopPressed: false });
  expect(after.at(-1)?.switches).toMatchObject({ emergencyStopPressed: true });
  expect(after[0]?.switches.shieldClosed).toBe(!after.at(-1)?.switches.shieldClosed);
  expect(fast.look(ENGLISH_WORDS.terminal.panel)).not.toBe(before);
});

test('it is opened as the board that it is, and closing it twice is harmless', async () => {
  const { board, seed, extra } = await opened({ seed: 7 });
  expect(board.identity).toMatchObject({ kind: 'emulated board', serial: 'emu-7', tickS: 0.05 });
  expect(seed).toBe(7);
  expect(extra).toMatchObject({ person: 'scripted', altitudeM: 60 });
  await board.close();
  await board.close();
});

test('a fault that would have no effect on it is refused, with those that have one', async () => {
  for (const name of ['fast-board-clock', 'slow-board-clock', 'board-stands-still']) {
    const refused = await emulatedSession({ ...OPTIONS, fault: [name] }, DEFAULT_CONFIG);
    expect(refused).toMatchObject({ ok: false });
    expect(refused.ok ? '' : refused.lines.join()).toContain('board-restart');
    expect(EMULATED_FAULT_NAMES).not.toContain(name);
  }
  expect((await opened({ fault: ['mute-link'] })).title(ENGLISH_WORDS)).toContain(
    'fault: mute-link',
  );
});
