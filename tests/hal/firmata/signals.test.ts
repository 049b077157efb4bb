import { expect, test } from 'vitest';
import { codesOf, lightsNow, sounds } from '../../../hal/firmata/signals.ts';
import type { DisplayLines } from '../../../src/core/frame.ts';
import { GENTLE, openBoard } from './desk.ts';

const ROWS: DisplayLines = ['one', 'two', 'three', 'four'];

test('one row goes out with each outputs message, behind it, and each row once', async () => {
  const { board, line } = await openBoard();
  for (let i = 0; i < 8; i++) board.write({ ...GENTLE, display: ROWS });
  expect(
    line()
      .texts()
      .map(({ row, text }) => [row, text.trimEnd()]),
  ).toEqual([
    [0, 'one'],
    [1, 'two'],
    [2, 'three'],
    [3, 'four'],
  ]);
  const kinds = line()
    .heard.filter(([, command]) => command === 0x0d)
    .map(([, , kind]) => kind);
  expect(kinds.slice(-12, -4)).toEqual([0x11, 0x13, 0x11, 0x13, 0x11, 0x13, 0x11, 0x13]);
});

test('a row that changes with every message does not keep the others from being drawn', async () => {
  const { board, line } = await openBoard();
  for (let i = 0; i < 8; i++) board.write({ ...GENTLE, display: [`${i}`, 'two', 'three', 'four'] });
  expect(
    new Set(
      line()
        .texts()
        .map(({ row }) => row),
    ),
  ).toEqual(new Set([0, 1, 2, 3]));
});

test('after a new connection everything is drawn again', async () => {
  const { board, running, line, time } = await openBoard();
  for (let i = 0; i < 4; i++) board.write({ ...GENTLE, display: ROWS });
  await running(0.1, 1000);
  line().breaks('close');
  await time.advance(1.2);
  for (let i = 0; i < 4; i++) board.write({ ...GENTLE, display: ROWS });
  expect(line().texts().length).toBe(4);
});

test('a letter of its own is sent once, before the first row that needs it', async () => {
  const { board, line } = await openBoard();
  const display: DisplayLines = ['Daño', 'seco', 'Año', 'Daño'];
  for (let i = 0; i < 8; i++) board.write({ ...GENTLE, display });
  const kinds = line()
    .heard.filter(([, command, kind]) => command === 0x0d && kind !== 0x11)
    .map(([, , kind]) => kind);
  expect(kinds.slice(-5)).toEqual([0x14, 0x13, 0x13, 0x13, 0x13]);
  expect(
    line()
      .texts()
      .map(({ text }) => text.trimEnd()),
  ).toEqual(['Da\0o', 'seco', 'A\0o', 'Da\0o']);
});

test('after a new connection its letters are sent again', async () => {
  const { board, running, line, time } = await openBoard();
  const display: DisplayLines = ['Daño', '', '', ''];
  const letters = () => line().heard.filter(([, , kind]) => kind === 0x14).length;
  for (let i = 0; i < 5; i++) board.write({ ...GENTLE, display });
  await running(0.1, 1000);
  line().breaks('close');
  await time.advance(1.2);
  expect(letters()).toBe(0);
  for (let i = 0; i < 5; i++) board.write({ ...GENTLE, display });
  expect(letters()).toBe(1);
});

test('what the display has no character for is a question mark', () => {
  expect(String.fromCharCode(...codesOf('a~b\\c°ä\n'))).toBe('a?b?c???            ');
});

test('yellow is red and green; a flashing lamp is dark in the second half of each second', () => {
  expect(lightsNow({ colour: 'yellow', flashing: false }, 0.7)).toEqual(['red', 'green']);
  expect(lightsNow({ colour: 'blue', flashing: true }, 4.49)).toEqual(['blue']);
  expect(lightsNow({ colour: 'blue', flashing: true }, 4.5)).toEqual([]);
});

test('the buzzer sounds once, or again every second', () => {
  const at = (asked: 'once' | 'repeating', timesS: readonly number[]) =>
    timesS.map((timeS) => sounds({ asked, sinceS: 10 }, timeS));
  expect(at('once', [10, 10.1, 10.2, 11, 11.1])).toEqual([true, true, false, false, false]);
  expect(at('repeating', [10, 10.1, 10.2, 11, 11.1])).toEqual([true, true, false, true, true]);
});

test('lamps and buzzer are written only when they change', async () => {
  const { board, line } = await openBoard();
  const levels = () => line().heard.filter(([first = 0]) => (first & 0xf0) === 0x90).length;
  board.write({ ...GENTLE, status: { colour: 'red', flashing: false } });
  const first = levels();
  expect(first).toBeGreaterThan(0);
  board.write({ ...GENTLE, status: { colour: 'red', flashing: false } });
  expect(levels()).toBe(first);
});
