import { expect, test } from 'vitest';
import {
  DISPLAY_AT_POWER_UP,
  type DisplayState,
  linesOf,
  stepDisplay,
} from '../../../sim/emulator/character-display.ts';

// Written out by hand from the wiring: enable, backlight and register select on bits 2, 3 and 0.
const ENABLE = 0x04;
const LIGHT = 0x08;
const SELECT = 0x01;

const nibble = (value: number, select = 0): number[] => {
  const lines = (value << 4) | LIGHT | select;
  return [lines, lines | ENABLE, lines];
};
const command = (value: number): number[] => [...nibble(value >> 4), ...nibble(value & 0xf)];
const text = (letters: string): number[] =>
  [...letters].flatMap((letter) => {
    const code = letter.charCodeAt(0);
    return [...nibble(code >> 4, SELECT), ...nibble(code & 0xf, SELECT)];
  });

/** The data sheet's way into four data lines, then two lines, display on, clear, to the right. */
const START = [
  ...nibble(3),
  ...nibble(3),
  ...nibble(3),
  ...nibble(2),
  ...command(0x28),
  ...command(0x0c),
  ...command(0x01),
  ...command(0x06),
];

const after = (bytes: readonly number[], state: DisplayState = DISPLAY_AT_POWER_UP): DisplayState =>
  bytes.reduce(stepDisplay, state);
const shown = (bytes: readonly number[]) => linesOf(after([...START, ...bytes]));
const padded = (line: string): string => line.padEnd(20);

test('text is written from the start of the first row', () => {
  expect(shown(text('Hello'))).toEqual(['Hello', '', '', ''].map(padded));
});

test.each([
  ['second', 0x40, 1],
  ['third', 0x14, 2],
  ['fourth', 0x54, 3],
])('the %s row begins at its own address', (_, address, row) => {
  expect(shown([...command(0x80 | address), ...text('x')])[row]).toBe(padded('x'));
});

test('what runs over the end of the first row goes on in the third', () => {
  const [first, second, third] = shown(text('abcdefghijklmnopqrstuvwxyz'));
  expect([first, second, third]).toEqual(['abcdefghijklmnopqrst', padded(''), padded('uvwxyz')]);
});

test('behind the end of memory’s first line comes its second', () => {
  expect(shown([...command(0x80 | 0x27), ...text('xy')])[1]).toBe(padded('y'));
});

test('clear empties all rows and goes to the start', () => {
  const bytes = [...command(0xc0), ...text('old'), ...command(0x01), ...text('new')];
  expect(shown(bytes)).toEqual(['new', '', '', ''].map(padded));
});

test('home goes to the start and leaves what is written', () => {
  expect(shown([...text('abc'), ...command(0x02), ...text('X')])[0]).toBe(padded('Xbc'));
});

test('characters of its own do not land on the glass', () => {
  expect(shown([...command(0x40), ...text('pixels')])[0]).toBe(padded(''));
});

test('a programmable character shows the letter of its dots, at its code and at the code eight above', () => {
  const bytes = (codes: readonly number[]) => text(String.fromCharCode(...codes));
  const enye = bytes([0x0d, 0x16, 0, 0x16, 0x19, 0x11, 0x11, 0]);
  const written = [...command(0x40 | 8), ...enye, ...command(0x80), ...bytes([1, 9, 0])];
  expect(shown(written)[0]).toBe(padded('ññ?'));
});

test('a display that was not switched on shows nothing', () => {
  const bytes = [...nibble(3), ...nibble(3), ...nibble(3), ...nibble(2), ...text('Hello')];
  expect(linesOf(after(bytes))).toEqual(['', '', '', ''].map(padded));
});

test('without the way into four data lines every nibble is taken for a byte', () => {
  expect(linesOf(after([...command(0x0c), ...text('Hello')]))[0]).not.toContain('Hello');
});

test('started anew in the middle of a byte, it finds back', () => {
  const state = after([...START, ...text('ab'), ...nibble(4, SELECT)]);
  expect(linesOf(after([...START, ...text('Hello')], state))[0]).toBe(padded('Hello'));
});

test('nothing is taken while it is being read', () => {
  const READ = 0x02;
  const reading = text('x').map((byte) => byte | READ);
  expect(shown(reading)[0]).toBe(padded(''));
});
