import { expect, test } from 'vitest';
import { BoardClosedError } from '../../../hal/board.ts';
import { OUTPUT_FLAGS } from '../../../hal/firmata/protocol.ts';
import type { Outputs } from '../../../src/core/frame.ts';
import { awaiting, GENTLE, openBoard, openOn, TICK_S } from './desk.ts';
import { frameBytes, OURS, RESTING, refusalBytes } from './scripted-firmware.ts';

const SAFE_FIELDS = { flags: OUTPUT_FLAGS.ventOpen, pump: 0, lamp: 0 };
const spoiltFrame = (fields = {}) => {
  const bytes = frameBytes(fields);
  bytes[12]! ^= 1;
  return bytes;
};

test('a frame message is a frame: numbered from 0, sampled at its own time', async () => {
  const { frames, running } = await openBoard();
  await running(0.2, 5000);
  expect(frames.map(({ sequence }) => sequence)).toEqual([0, 1, 2, 3]);
  expect(frames.every(({ link, timeS, sampledAtS }) => link === 'up' && timeS === sampledAtS)).toBe(
    true,
  );
  expect(frames[3]!.timeS - frames[0]!.timeS).toBeCloseTo(0.15);
  expect(frames[0]!.counts.supplyVoltage).toBe(RESTING.supplyVoltage);
});

test('frames before the first listener take no number, later ones come to nobody as well', async () => {
  const { opened, lines } = await openOn([OURS]);
  if (!opened.ok) throw new Error(opened.problem.words);
  const { frames$ } = opened.board;
  const numbers: number[] = [];
  lines[0]!.sendsFrame();
  const stop = frames$.subscribe(({ sequence }) => numbers.push(sequence));
  lines[0]!.sendsFrame();
  stop.unsubscribe();
  lines[0]!.sendsFrame();
  frames$.subscribe(({ sequence }) => numbers.push(sequence));
  lines[0]!.sendsFrame();
  expect(numbers).toEqual([0, 2]);
});

test('a mute board gives a frame every tick, the last counts, and time that goes on', async () => {
  const { frames, running, time } = await openBoard();
  await running(0.5, 1000);
  const lastUp = frames.at(-1)!;
  await time.advance(0.9);
  const mute = frames.slice(lastUp.sequence + 1);
  expect(mute.length).toBeGreaterThanOrEqual(0.9 / TICK_S - 2);
  expect(mute.length).toBeLessThanOrEqual(0.9 / TICK_S);
  for (const frame of mute) {
    expect(frame).toMatchObject({ link: 'mute', sampledAtS: lastUp.sampledAtS });
    expect(frame.counts).toEqual(lastUp.counts);
    expect(frame.timeS).toBeGreaterThan(lastUp.timeS);
  }
  expect(mute.at(-1)!.timeS - lastUp.timeS).toBeGreaterThan(0.8);
});

test('time goes on smoothly when the board is heard again', async () => {
  const { frames, running, time } = await openBoard();
  await running(0.5, 1000);
  await time.advance(0.6);
  await running(0.5, 2100);
  const steps = frames.slice(1).map(({ timeS }, i) => timeS - frames[i]!.timeS);
  expect(Math.min(...steps)).toBeGreaterThanOrEqual(0);
  expect(Math.max(...steps)).toBeLessThan(0.101);
  expect(frames.at(-1)!.timeS - frames[0]!.timeS).toBeCloseTo(1.55, 1);
});

test('outputs go out as flags and duties', async () => {
  const { board, line } = await openBoard();
  board.write({ ...GENTLE, pumpRatio: 1, selector: 'pressure', lampEnabled: true, lampRatio: 0.5 });
  const flags = OUTPUT_FLAGS.selectorPressure + OUTPUT_FLAGS.lampEnabled;
  expect(line().outputs()).toEqual([{ flags, pump: 255, lamp: 128 }]);
});

test('the same outputs go out again with every write: that renews their lease', async () => {
  const { board, line } = await openBoard();
  for (let i = 0; i < 3; i++) board.write(GENTLE);
  expect(line().outputs().length).toBe(3);
});

test('every outputs message has the next number, from where the board is', async () => {
  const { board, line } = await openBoard([{ ...OURS, taken: 5_000 }]);
  board.write(GENTLE);
  board.makeSafe();
  board.write(GENTLE);
  expect(line().sequences()).toEqual([5_001, 5_002, 5_003]);
});

test('clearing of trips is asked for when the outputs ask for it', async () => {
  const { board, line } = await openBoard();
  board.write({ ...GENTLE, pumpRatio: 0, ventOpen: true, clearTrips: true });
  expect(line().outputs()[0]!.flags).toBe(OUTPUT_FLAGS.ventOpen + OUTPUT_FLAGS.clearTrips);
});

test.each([
  ['a pump ratio over 1', { pumpRatio: 1.01 }],
  ['a pump ratio that is not a number', { pumpRatio: Number.NaN }],
  ['a vent that is no switch', { ventOpen: 'no' }],
  ['a selector that does not exist', { selector: 'both' }],
])('%s becomes the safe message', async (_, unsound) => {
  const { board, line } = await openBoard();
  board.write({ ...GENTLE, ...unsound } as Outputs);
  expect(line().outputs()).toEqual([SAFE_FIELDS]);
});

test('makeSafe sends the safe state at once', async () => {
  const { board, line } = await openBoard();
  board.write(GENTLE);
  board.makeSafe();
  expect(line().outputs().at(-1)).toEqual(SAFE_FIELDS);
});

test('a damaged frame message is no frame; the next one says so and is no gap', async () => {
  const { frames, line } = await openBoard();
  line().sendsFrame({ sequence: 7 });
  line().sends(spoiltFrame({ sequence: 8 }));
  line().sendsFrame({ sequence: 9 });
  line().sendsFrame({ sequence: 10 });
  expect(frames.map(({ damaged, gap }) => ({ damaged, gap }))).toEqual([
    { damaged: false, gap: false },
    { damaged: true, gap: false },
    { damaged: false, gap: false },
  ]);
});

test('a frame whose bytes are torn counts as damaged, not as a gap', async () => {
  const { frames, line } = await openBoard();
  line().sendsFrame({ sequence: 7 });
  line().sends(frameBytes({ sequence: 8 }).slice(3));
  line().sendsFrame({ sequence: 9 });
  expect(frames[1]).toMatchObject({ damaged: true, gap: false });
});

test('frames that never arrive are a gap, also where the numbering starts anew', async () => {
  const { frames, line } = await openBoard();
  line().sendsFrame({ sequence: 16382 });
  line().sendsFrame({ sequence: 16383 });
  line().sendsFrame({ sequence: 0 });
  line().sendsFrame({ sequence: 2 });
  expect(frames.map(({ gap }) => gap)).toEqual([false, false, false, true]);
});

test('the board says that one of our messages was damaged, and the frame passes it on', async () => {
  const { frames, line } = await openBoard();
  line().sendsFrame({ badMessages: 127 });
  line().sendsFrame({ badMessages: 0 });
  expect(frames.map(({ damaged }) => damaged)).toEqual([false, true]);
});

test('a refusal for another reason than damage is told to people', async () => {
  const { line, notices } = await openBoard();
  line().sends(refusalBytes(0x11, 2));
  expect(notices).toEqual(['The board refused a message: out-of-range.']);
});

test('presses are counted on, so that none is lost with a frame', async () => {
  const { frames, line } = await openBoard();
  line().sendsFrame({ presses: 0b00_00_00_11 });
  line().sendsFrame({ presses: 0b11_01_00_01 });
  // HOLD comes first, whichever was pressed first.
  const hold = ['hold', 'hold', 'hold'];
  expect(frames.map(({ pressed }) => pressed)).toEqual([[], [...hold, 'yes', 'yes', 'more']]);
});

test('the ladder of the buttons is told by name, and one that is none is a damaged frame', async () => {
  const { frames, line } = await openBoard();
  for (const ladder of [0, 1, 2, 3, 4, 5, 6]) line().sendsFrame({ ladder });
  const names = ['released', 'hold', 'yes', 'no', 'more', 'between', 'open'];
  expect(frames.map(({ ladder }) => ladder)).toEqual(names);
  line().sendsFrame({ ladder: 7 });
  expect(frames).toHaveLength(names.length);
});

test('close sends the safe state and ends when the board reports it', async () => {
  const { board, running, line, time, frames } = await openBoard();
  await running(0.2, 1000, { pump: 77, acting: 40 });
  let completed = false;
  board.frames$.subscribe({
    complete: () => {
      completed = true;
    },
  });
  const count = frames.length;
  const closing = board.close();
  expect(line().outputs()).toEqual([SAFE_FIELDS]);
  line().sendsFrame({ pump: 77, acting: 40 });
  await time.advance(0.05);
  expect(completed).toBe(false);
  line().sendsFrame();
  await time.advance(0.05);
  expect(completed).toBe(false);
  line().sendsFrame();
  await closing;
  expect(completed).toBe(true);
  expect(frames.length).toBe(count);
  expect(line().isOpen).toBe(false);
});

test('close waits no longer than the lease for a board that says nothing', async () => {
  const { board, line, time } = await openBoard();
  const closing = board.close();
  await time.advance(0.5);
  expect(line().isOpen).toBe(true);
  await time.advance(0.15);
  await closing;
  expect(line().isOpen).toBe(false);
  expect(time.timers()).toBe(0);
});

test('after close, writing throws, makeSafe and closing again do not', async () => {
  const { board, time } = await openBoard();
  await awaiting(time, board.close());
  expect(() => board.write(GENTLE)).toThrow(BoardClosedError);
  expect(() => board.makeSafe()).not.toThrow();
  await expect(board.close()).resolves.toBeUndefined();
});
