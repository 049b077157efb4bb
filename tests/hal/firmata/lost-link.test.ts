/** A lost link and a restarted board, and what each side is sent afterwards. */
import { expect, test } from 'vitest';
import { OUTPUT_FLAGS } from '../../../hal/firmata/protocol.ts';
import { awaiting, GENTLE, openBoard, TICK_S } from './desk.ts';
import { OURS } from './scripted-firmware.ts';

const SAFE_FIELDS = { flags: OUTPUT_FLAGS.ventOpen, pump: 0, lamp: 0 };

test.each(['close', 'error'] as const)(
  'a line that ends by %s is lost, and another one is tried',
  async (how) => {
    const { board, frames, running, line, lines, time } = await openBoard();
    await running(0.2, 1000);
    line().breaks(how);
    await time.advance(0.9);
    expect(lines.length).toBe(1);
    await time.advance(0.3);
    expect(lines.length).toBe(2);
    board.write(GENTLE);
    expect(line().outputs().at(-1)).toMatchObject({ pump: 77 });
    await running(0.2, 2500);
    expect(frames.at(-1)!.link).toBe('up');
  },
);

test('one second of silence loses the link; a write that fails does so at once', async () => {
  const { board, running, line, lines, notices, time } = await openBoard();
  await running(0.2, 1000);
  await time.advance(2.2);
  expect(lines.length).toBe(2);
  expect(notices[0]).toMatch(/Nothing came for 1 s/);
  line().failsNextWrite = 'EIO';
  board.write(GENTLE);
  await time.advance(1.2);
  expect(lines.length).toBe(3);
});

test('a host that was away blames itself: no mute frame and no lost link for its own absence', async () => {
  const { frames, running, notices, line, time } = await openBoard();
  await running(0.3, 1000);
  const count = frames.length;
  await time.jump(1.6);
  expect(frames.length).toBe(count);
  line().sendsFrame({ timeMs: 2850 });
  await time.advance(0.04);
  expect(frames.slice(count).map(({ link }) => link)).toEqual(['up']);
  await time.jump(1.6);
  await time.advance(0.8);
  expect(notices).toEqual([]);
});

test('a host that is late at every check still calls the board mute and gives up the connection', async () => {
  const { frames, running, notices, time } = await openBoard();
  await running(0.3, 1000);
  const count = frames.length;
  for (let i = 0; i < 14; i++) await time.jump(2 * TICK_S);
  expect(frames.slice(count).filter(({ link }) => link === 'mute').length).toBeGreaterThan(4);
  expect(notices[0]).toMatch(/Nothing came for 1 s/);
});

test('what is written while the line is down is never sent', async () => {
  const { board, running, line, lines, time } = await openBoard();
  await running(0.2, 1000);
  line().breaks('close');
  for (let i = 0; i < 5; i++) board.write(GENTLE);
  await time.advance(1.5);
  expect(lines.length).toBe(2);
  expect(lines[0]!.outputs()).toEqual([]);
  expect(lines[1]!.outputs()).toEqual([]);
});

test('the next board is told its limits before it gets outputs, and its frames count then only', async () => {
  const { board, frames, running, line, lines, time } = await openBoard([
    OURS,
    { ...OURS, verdicts: ['bad-checksum', 'accepted'] },
  ]);
  await running(0.2, 1000);
  line().breaks('close');
  await time.advance(1.1);
  expect(lines.length).toBe(2);
  line().sendsFrame({ timeMs: 2300 });
  board.write(GENTLE);
  expect(frames.at(-1)!.link).toBe('mute');
  expect(line().outputs()).toEqual([SAFE_FIELDS]);
  await time.advance(0.3);
  line().sendsFrame({ timeMs: 2600 });
  board.write(GENTLE);
  expect(frames.at(-1)!.link).toBe('up');
  expect(line().outputs().at(-1)).toMatchObject({ pump: 77 });
  const limits = line().heard.filter(([, command, kind]) => command === 0x0d && kind === 0x12);
  expect(limits.length).toBe(2);
});

test('presses that the next board counted before are not made up', async () => {
  const { frames, running, line, time } = await openBoard();
  await running(0.2, 1000, { presses: 0b00_00_01 });
  line().breaks('close');
  await time.advance(1.2);
  await running(0.2, 2400, { presses: 0b01_11_10 });
  expect(frames.at(-1)!.link).toBe('up');
  expect(frames.flatMap(({ pressed }) => pressed)).toEqual([]);
});

test('what the last line still says is not heard: neither frames nor its end', async () => {
  const { frames, running, lines, notices, time } = await openBoard();
  await running(0.2, 1000);
  await time.advance(2.2);
  expect(lines.length).toBe(2);
  await running(0.1, 3500);
  const [count, told] = [frames.length, notices.length];
  lines[0]!.sendsFrame({ pressure: 999 });
  lines[0]!.breaks('error');
  lines[0]!.breaks('close');
  expect(frames.length).toBe(count);
  await running(1.5, 3600);
  expect(lines.length).toBe(2);
  expect(notices.length).toBe(told);
  expect(frames.slice(count).map(({ link }) => link)).not.toContain('mute');
  expect(frames.map(({ counts }) => counts.pressure)).not.toContain(999);
});

test('it goes on trying, every second, and says each problem once', async () => {
  const { running, line, notices, time, frames } = await openBoard([OURS, null]);
  await running(0.2, 1000);
  line().breaks('close');
  await time.advance(10);
  expect(notices.length).toBe(2);
  expect(frames.at(-1)!.link).toBe('mute');
  expect(frames.length).toBeGreaterThan(10 / TICK_S - 3);
});

test('another firmware on the next connection gets no outputs', async () => {
  const { board, running, line, lines, time } = await openBoard([OURS, { ...OURS, major: 2 }]);
  await running(0.2, 1000);
  line().breaks('close');
  await time.advance(3);
  board.write(GENTLE);
  expect(lines.length).toBeGreaterThan(1);
  for (const { outputs } of lines.slice(1)) expect(outputs()).toEqual([]);
});

test('a restarted board is told its limits and its interval again, and no press is made up', async () => {
  const { frames, running, line, time } = await openBoard();
  await running(0.3, 60_000, { presses: 0b01_10_11, badMessages: 5 });
  const before = line().heard.length;
  line().sendsFrame({ timeMs: 20, sequence: 0, presses: 0, trips: 1 << 7 });
  const { trips, pressed, timeS, damaged, gap } = frames.at(-1)!;
  expect({ trips, pressed, damaged, gap }).toEqual({
    trips: ['watchdog'],
    pressed: [],
    damaged: false,
    // What the board did meanwhile, no frame tells.
    gap: true,
  });
  expect(timeS).toBeGreaterThanOrEqual(frames.at(-2)!.timeS);
  await time.advance(0.02);
  const told = line().heard.slice(before);
  expect(told.some(([, command]) => command === 0x7a)).toBe(true);
  expect(told.some(([, command, kind]) => command === 0x0d && kind === 0x12)).toBe(true);
});

test('a board whose limits were spoilt is told them again, and gets the safe state until then', async () => {
  const { board, running, line, time } = await openBoard();
  await running(0.3, 60_000);
  const before = line().heard.length;
  // As after a trip of its settings: safe, and no limits of a host.
  line().sendsFrame({ timeMs: 60_350, trips: 1 << 8, acting: 2 });
  board.write(GENTLE);
  expect(line().outputs().at(-1)).toEqual({ flags: 2, pump: 0, lamp: 0 });
  await time.advance(0.02);
  const told = line().heard.slice(before);
  expect(told.some(([, command, kind]) => command === 0x0d && kind === 0x12)).toBe(true);
  board.write(GENTLE);
  expect(line().outputs().at(-1)!.pump).toBeGreaterThan(0);
});

test('a board that reports its version unasked has started anew', async () => {
  const { running, line, time } = await openBoard();
  await running(0.3, 60_000);
  const before = line().heard.length;
  line().sends([0xf9, 2, 5]);
  await time.advance(0.02);
  const told = line().heard.slice(before);
  expect(told.some(([, command, kind]) => command === 0x0d && kind === 0x12)).toBe(true);
});

test('a board that starts anew again and again is told its limits by one talk at a time', async () => {
  const { running, line, time } = await openBoard([
    { ...OURS, verdicts: ['accepted', 'bad-checksum', 'accepted'] },
  ]);
  await running(0.3, 60_000);
  const before = line().heard.length;
  for (let i = 0; i < 5; i++) line().sends([0xf9, 2, 5]);
  await time.advance(0.2);
  const limits = () =>
    line()
      .heard.slice(before)
      .filter(([, command, kind]) => command === 0x0d && kind === 0x12).length;
  expect(limits()).toBe(1);
  await time.advance(0.2);
  expect(limits()).toBe(2);
});

test('until a restarted board has accepted its limits, it gets the safe state only', async () => {
  const { board, running, line, time } = await openBoard();
  await running(0.3, 60_000);
  line().sendsFrame({ timeMs: 20 });
  board.write(GENTLE);
  expect(line().outputs().at(-1)).toEqual(SAFE_FIELDS);
  await time.advance(0.02);
  board.write(GENTLE);
  expect(line().outputs().at(-1)).toMatchObject({ pump: 77 });
});

test('closing while a new connection is tried leaves no line and no timer', async () => {
  const { board, running, line, lines, time } = await openBoard([OURS, { ...OURS, noise: [] }]);
  await running(0.2, 1000);
  line().breaks('close');
  await time.advance(1.5);
  await awaiting(time, board.close());
  expect(time.timers()).toBe(0);
  expect(lines.every(({ isOpen }) => !isOpen)).toBe(true);
});
