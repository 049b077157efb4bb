import five from 'johnny-five';
import { expect, test } from 'vitest';
import { openFirmataBoard } from '../../../hal/firmata/firmata-board.ts';
import { awaiting, GENTLE, openBoard, openOn, optionsOn } from './desk.ts';
import { createScriptedLine, OURS, type Script } from './scripted-firmware.ts';
import { createVirtualTime } from './virtual-time.ts';

const boardsOfJohnnyFive = () => (five.Board as unknown as { cache: unknown[] }).cache.length;

const realTimers = () =>
  process.getActiveResourcesInfo().filter((kind) => kind === 'Timeout').length;

const problemOn = async (script: Partial<Script> | null) => {
  const before = boardsOfJohnnyFive();
  const { opened, time, lines } = await openOn([script === null ? null : { ...OURS, ...script }]);
  expect(time.timers()).toBe(0);
  expect(lines.filter(({ isOpen }) => isOpen)).toEqual([]);
  expect(boardsOfJohnnyFive()).toBe(before);
  if (opened.ok) throw new Error('the board opened');
  return opened.problem;
};

test('opens on our firmware, with the limits sent and accepted', async () => {
  const { opened, lines } = await openOn([OURS]);
  expect(opened.ok).toBe(true);
  expect(lines[0]!.heard.some(([, command]) => command === 0x7a)).toBe(true);
});

const TROUBLES: readonly (readonly [string, Partial<Script> | null, string, RegExp])[] = [
  ['a port that does not open', null, 'port-failed', /nothing plugged in/],
  ['stock firmware', { name: 'StandardFirmata.ino' }, 'wrong-firmware', /StandardFirmata\.ino/],
  ['another major version', { major: 2 }, 'wrong-version', /2\.0; version 4\.x/],
  ['noise', { noise: [0x55, 0xaa, 0xff] }, 'no-answer', /wrong baud rate or not our firmware/],
  ['a device that says nothing', { noise: [] }, 'no-answer', /Nothing came at all/],
  ['a board that tells no pins', { tellsPins: false }, 'no-answer', /began to answer and did not/],
  [
    'another firmware that tells no pins',
    { name: 'StandardFirmata.ino', tellsPins: false },
    'wrong-firmware',
    /StandardFirmata\.ino/,
  ],
  [
    'a limit that would loosen',
    { verdicts: ['would-loosen'], offender: 1 },
    'limits-refused',
    /heatSinkFloor 100 would loosen/,
  ],
  [
    'a limit that makes no sense',
    { verdicts: ['malformed'], offender: 3 },
    'limits-refused',
    /leaseMs 500 makes no sense/,
  ],
  ['limits that nobody answers', { verdicts: [] }, 'limits-unanswered', /did not acknowledge/],
];

test.each(TROUBLES)(
  '%s is a problem with a name, words and advice',
  async (_, script, code, words) => {
    const problem = await problemOn(script);
    expect(problem.code).toBe(code);
    expect(problem.words).toMatch(words);
    expect(problem.advice).not.toBe('');
  },
);

test('a board that is still in its boot loader is asked again every half second', async () => {
  const { opened, time, lines } = await openOn([{ ...OURS, misses: 3 }]);
  expect(opened.ok).toBe(true);
  expect(lines.length).toBe(1);
  expect(lines[0]!.heard.filter(([, , command]) => command === 0x79).length).toBe(4);
  expect(time.scheduler.now()).toBeGreaterThanOrEqual(1500);
  expect(time.scheduler.now()).toBeLessThan(1600);
});

test.each([
  ['a device that says nothing', { noise: [] }, 5000],
  ['limits that nobody answers', { verdicts: [] }, 2000],
])('%s is waited for so long, and no longer', async (_, script, deadlineMs) => {
  const { opened, time } = await openOn([{ ...OURS, ...script }]);
  expect(opened.ok).toBe(false);
  expect(time.scheduler.now()).toBeGreaterThanOrEqual(deadlineMs);
  expect(time.scheduler.now()).toBeLessThan(deadlineMs + 100);
});

test('limits that arrive damaged are sent again', async () => {
  const { opened, lines } = await openOn([{ ...OURS, verdicts: ['bad-checksum', 'accepted'] }]);
  expect(opened.ok).toBe(true);
  expect(lines.length).toBe(1);
  const sent = lines[0]!.heard.filter(([, command, kind]) => command === 0x0d && kind === 0x12);
  expect(sent.length).toBe(2);
});

test('two boards in one process hear their own messages only', async () => {
  const [one, two] = [await openBoard(), await openBoard()];
  one.line().sendsFrame({ pressure: 111 });
  two.line().sendsFrame({ pressure: 222 });
  expect(one.frames.map(({ counts }) => counts.pressure)).toEqual([111]);
  expect(two.frames.map(({ counts }) => counts.pressure)).toEqual([222]);
});

test('twenty boards opened and closed leave no timer, no line and no johnny-five board', async () => {
  const before = boardsOfJohnnyFive();
  const timersBefore = realTimers();
  for (let i = 0; i < 20; i++) {
    const { board, time, line } = await openBoard();
    await awaiting(time, board.close());
    expect(time.timers()).toBe(0);
    expect(line().isOpen).toBe(false);
  }
  expect(boardsOfJohnnyFive()).toBe(before);
  // The test runner has a timer of its own, which comes and goes.
  expect(realTimers()).toBeLessThanOrEqual(timersBefore + 1);
});

test('a message on which firmata-io throws is dropped, told, and counts as damage', async () => {
  const { line, frames, notices } = await openBoard();
  line().sendsFrame({ sequence: 1 });
  // The state of pin 100, which it looks up without a check.
  line().sends([0xf0, 0x6e, 100, 1, 0, 0, 0xf7]);
  line().sendsFrame({ sequence: 2 });
  expect(frames.map(({ damaged }) => damaged)).toEqual([false, true]);
  expect(notices[0]).toMatch(/A message was dropped/);
});

test('a line that takes no more bytes is lost, and nothing piles up behind it', async () => {
  const { board, line, lines, running, time } = await openBoard();
  await running(0.2, 1000);
  line().stuck = true;
  const before = line().heard.length;
  for (let i = 0; i < 1000; i++) board.write(GENTLE);
  // A fifth of a second of the line holds 5000 bytes, a message 12.
  expect(line().heard.length - before).toBeLessThan(5000 / 12 + 1);
  await time.advance(1.2);
  expect(lines.length).toBe(2);
});

test('the next line is opened only when the last one has closed: a port is there once', async () => {
  const { line, lines, running, time } = await openBoard();
  await running(0.2, 1000);
  let letGo = () => {};
  line().closable = new Promise((resolve) => {
    letGo = resolve;
  });
  await time.advance(2.5);
  expect(lines.length).toBe(1);
  letGo();
  await time.advance(0.1);
  expect(lines.length).toBe(2);
});

test('a line that is lost before the board has answered ends the attempt at once', async () => {
  const line = createScriptedLine({ ...OURS, noise: [] });
  const time = createVirtualTime();
  const opening = openFirmataBoard(optionsOn(time, async () => line));
  await time.advance(0.3);
  line.breaks('close');
  const opened = await awaiting(time, opening);
  expect(opened).toMatchObject({ ok: false, problem: { code: 'port-gone' } });
  expect(time.scheduler.now()).toBeLessThan(400);
});

test('what goes wrong without a name is a problem of the driver, not the end of the program', async () => {
  const line = createScriptedLine();
  line.write = () => {
    throw new Error('no such luck');
  };
  const time = createVirtualTime();
  const opened = await awaiting(time, openFirmataBoard(optionsOn(time, async () => line)));
  if (opened.ok) throw new Error('the board opened');
  expect(opened.problem.code).toBe('driver-failed');
  expect(opened.problem.words).toMatch(/no such luck/);
  expect(line.isOpen).toBe(false);
  expect(time.timers()).toBe(0);
});

test('a line that never closes holds neither the next connection nor the end for long', async () => {
  const { board, line, lines, running, time } = await openBoard();
  await running(0.2, 1000);
  line().closable = new Promise(() => {});
  await time.advance(4);
  expect(lines.length).toBe(2);
  line().closable = new Promise(() => {});
  await awaiting(time, board.close());
  expect(time.timers()).toBe(0);
});
