/** The driver against the real firmware image, in one process and in the emulator's time. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { Board } from '../../../hal/board.ts';
import { openFirmataBoard } from '../../../hal/firmata/firmata-board.ts';
import { openStockBoard } from '../../../hal/firmata/stock-board.ts';
import { createEmulatedBench } from '../../../sim/emulator/emulated-bench.ts';
import { loadImage } from '../../../sim/emulator/image.ts';
import { createInProcessLine } from '../../../sim/emulator/in-process-line.ts';
import { createVirtualClock } from '../../../sim/emulator/virtual-clock.ts';
import { type Frame, SAFE } from '../../../src/core/frame.ts';
import { scenarioOf } from '../../sim/emulator/scenarios.ts';
import { GENTLE, LIMITS, TICK_S } from './desk.ts';
import { settled } from './virtual-time.ts';

const image = loadImage(
  readFileSync(new URL('../../../hal/firmware/image/meniscus.hex', import.meta.url), 'utf8'),
);

async function bench(limits = LIMITS) {
  const emulated = createEmulatedBench({ image, scenario: scenarioOf() });
  const clock = createVirtualClock(emulated, settled);
  const lines: ReturnType<typeof createInProcessLine>[] = [];
  const openLine = async () => {
    const line = createInProcessLine(emulated);
    lines.push(line);
    return line;
  };
  const during = async <T>(promise: Promise<T>): Promise<T> => {
    let done = false;
    const finish = () => {
      done = true;
    };
    promise.then(finish, finish);
    while (!done) await clock.sleep(0.001);
    return promise;
  };
  const notices: string[] = [];
  const options = {
    openLine,
    portName: 'emulated',
    scheduler: clock.scheduler,
    tickS: TICK_S,
    limits,
    onNotice: (words: string) => notices.push(words),
  };
  return { emulated, clock, lines, during, options, notices };
}

async function running() {
  const parts = await bench();
  const opened = await parts.during(openFirmataBoard(parts.options));
  if (!opened.ok) throw new Error(opened.problem.words);
  const { board } = opened;
  const frames: Frame[] = [];
  board.frames$.subscribe((frame) => frames.push(frame));
  const close = () => parts.during(board.close());
  return { ...parts, board, frames, close };
}

/** Clears what tripped at power-up, then keeps these outputs on their lease. */
async function write(
  board: Board,
  sleep: (s: number) => Promise<void>,
  seconds: number,
  changes = {},
) {
  for (let t = 0; t < seconds; t += TICK_S) {
    board.write({ ...GENTLE, ...changes });
    await sleep(TICK_S);
  }
}

test('opens, gives a frame every tick, and drives what is written', async () => {
  const { board, frames, emulated, clock, close, notices } = await running();
  const openedAfterS = emulated.timeS();
  await clock.sleep(2);
  expect(Math.abs(frames.length - 2 / TICK_S)).toBeLessThanOrEqual(1);
  expect(frames.every(({ link, damaged, gap }) => link === 'up' && !damaged && !gap)).toBe(true);
  await write(board, clock.sleep, 0.2, { ...SAFE, clearTrips: true });
  expect(frames.at(-1)!.trips).toEqual([]);
  await write(board, clock.sleep, 0.5);
  expect(emulated.pins()).toMatchObject({ ventOpen: false });
  expect(emulated.pins().pumpRatio).toBeCloseTo(0.3, 2);
  expect(notices).toEqual([]);
  expect(openedAfterS).toBeLessThan(0.5);
  await close();
  expect(emulated.pins()).toMatchObject({ pumpRatio: 0, ventOpen: true });
});

test('draws the display row by row and lights the status lamp', async () => {
  const { board, emulated, clock, close } = await running();
  const display = ['Row one', 'Row two ä ж', 'Row three', '12345678901234567890'] as const;
  await write(board, clock.sleep, 0.5, { display, status: { colour: 'yellow', flashing: false } });
  expect(emulated.display()).toEqual([
    'Row one             ',
    'Row two ä ?         ',
    'Row three           ',
    '12345678901234567890',
  ]);
  expect([11, 12, 13].map((pin) => emulated.chip.level(pin))).toEqual([true, true, false]);
  await close();
});

test('a press at the bench is a press in a frame, once', async () => {
  const { frames, emulated, clock, close } = await running();
  await clock.sleep(0.5);
  emulated.press('no');
  await clock.sleep(0.5);
  expect(frames.flatMap(({ pressed }) => pressed)).toEqual(['no']);
  await close();
});

test('a limit that would loosen is refused by the firmware, by its name', async () => {
  const { during, options } = await bench({ ...LIMITS, pressureCeiling: 1000 });
  const opened = await during(openFirmataBoard(options));
  expect(opened).toMatchObject({ ok: false, problem: { code: 'limits-refused' } });
  expect(opened.ok ? '' : opened.problem.words).toMatch(/pressureCeiling 1000/);
});

test('a pulled cable: safe by the lease, mute frames, and a new connection once it is back', async () => {
  const { board, frames, emulated, clock, lines, close } = await running();
  await write(board, clock.sleep, 0.2, { ...SAFE, clearTrips: true });
  await write(board, clock.sleep, 0.3);
  expect(emulated.pins().pumpRatio).toBeGreaterThan(0);
  lines[0]!.pull();
  await clock.sleep(0.6);
  expect(emulated.pins()).toEqual(SAFE);
  expect(frames.at(-1)!.link).toBe('mute');
  await clock.sleep(1);
  expect(lines.length).toBe(2);
  expect(frames.at(-1)).toMatchObject({ link: 'up', damaged: false, gap: false });
  const steps = frames.slice(1).map(({ timeS }, i) => timeS - frames[i]!.timeS);
  expect(Math.min(...steps)).toBeGreaterThanOrEqual(0);
  expect(Math.max(...steps)).toBeLessThan(0.12);
  expect(emulated.pins()).toEqual(SAFE);
  await close();
});

test('the watchdog bites: the frames say so, the limits are told again, and it can be cleared', async () => {
  const { board, frames, emulated, clock, close } = await running();
  await write(board, clock.sleep, 0.2, { ...SAFE, clearTrips: true });
  emulated.chip.hang();
  await clock.sleep(0.4);
  expect(frames.at(-1)).toMatchObject({ link: 'up', trips: ['watchdog'], pressed: [] });
  await write(board, clock.sleep, 0.3, { ...SAFE, clearTrips: true });
  expect(frames.at(-1)!.trips).toEqual([]);
  await write(board, clock.sleep, 0.3);
  expect(emulated.pins().ventOpen).toBe(false);
  await close();
});

test("johnny-five's own display class draws on the display, for wiring tests", async () => {
  const { during, options, clock, emulated } = await bench();
  const opened = await during(openStockBoard(options));
  if (!opened.ok) throw new Error(opened.problem.words);
  const { board } = opened;
  board.print(2, 'wiring test');
  await clock.sleep(2);
  expect(emulated.display()[2]).toBe('wiring test         ');
  const { emergencyStop, shieldSwitch } = board.switches();
  expect(emergencyStop).toBe('closed');
  emulated.toggleShield();
  await clock.sleep(0.2);
  expect([shieldSwitch, board.switches().shieldSwitch].sort()).toEqual(['closed', 'open']);
  expect(board.counts().pressure).toBeGreaterThan(250);
  await during(board.close());
});
