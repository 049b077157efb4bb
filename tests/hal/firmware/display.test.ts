/** Text for the display, drawn by the firmware in the background. */
import { expect, test } from 'vitest';
import {
  ACTING_BITS,
  encodeLetter,
  encodeText,
  REFUSALS,
  UNIT_SYSEX,
} from '../../../hal/firmata/protocol.ts';
import {
  DISPLAY_AT_POWER_UP,
  linesOf,
  stepDisplay,
} from '../../../sim/emulator/character-display.ts';
import { LETTERS } from '../../../src/core/letters.ts';
import { DISPLAY_ADDRESS } from '../../../wiring/pin-map.ts';
import { BUSY, createBench, PINS_BUSY, sysex } from './bench.ts';

const LINES = [
  'Pressure 101.3 kPa  ',
  'abcdefghijklmnopqrst',
  'Third row, all of it',
  '0123456789 ()<>=+-*/',
];
const textMessage = (row: number, text: string) =>
  sysex([UNIT_SYSEX, ...encodeText(row, [...Buffer.from(text)])]);

function withDisplay() {
  const devices = new Map<number, { write: (byte: number) => void }>();
  let glass = DISPLAY_AT_POWER_UP;
  let bytes = 0;
  const plugIn = () =>
    devices.set(DISPLAY_ADDRESS, {
      write: (byte) => {
        bytes += 1;
        glass = stepDisplay(glass, byte);
      },
    });
  plugIn();
  const bench = createBench({ i2c: devices });
  return {
    bench,
    plugIn,
    /** Unplugged it loses what it showed. */
    unplug: () => {
      devices.delete(DISPLAY_ADDRESS);
      glass = DISPLAY_AT_POWER_UP;
    },
    lines: () => [...linesOf(glass)],
    bytes: () => bytes,
    write: (lines: readonly string[]) => {
      for (const [row, text] of lines.entries()) bench.send(textMessage(row, text), 0);
    },
    answers: () => (bench.lastFrame().acting & ACTING_BITS.displayAnswers) !== 0,
  };
}

test('nothing is sent to the display before the first text', () => {
  const { bench, bytes } = withDisplay();
  bench.chip.run(1);
  expect(bytes()).toBe(0);
});

test('four rows of text arrive on the glass', () => {
  const { bench, write, lines, answers } = withDisplay();
  write(LINES);
  bench.chip.run(0.3);
  expect(lines()).toEqual(LINES);
  expect(answers()).toBe(true);
});

test('one changed character costs one character, not a row', () => {
  const { bench, write, lines, bytes } = withDisplay();
  write(LINES);
  bench.chip.run(0.3);
  const before = bytes();
  const changed = LINES.with(2, 'Third row: all of it');
  write(changed);
  bench.chip.run(0.05);
  expect(lines()).toEqual(changed);
  expect(bytes() - before).toBeLessThanOrEqual(12);
});

test('while rows are drawn outputs keep acting within their usual time', () => {
  const { bench, write } = withDisplay();
  write(LINES);
  bench.want(BUSY);
  expect(bench.pins()).toEqual(PINS_BUSY);
});

test('a display that does not answer is told of in the frame and drawn anew when it answers', () => {
  const { bench, write, lines, answers, unplug, plugIn } = withDisplay();
  write(LINES);
  bench.chip.run(0.3);
  unplug();
  bench.chip.run(0.6);
  expect(answers()).toBe(false);
  plugIn();
  bench.chip.run(0.9);
  expect(lines()).toEqual(LINES);
  expect(answers()).toBe(true);
});

const letterMessage = (code: number, rows: readonly number[]) =>
  sysex([UNIT_SYSEX, ...encodeLetter(code, rows)]);
const SPANISH = [...'áéíóúñ¿Í'];
const withLetters = () => {
  const display = withDisplay();
  for (const [code, letter] of SPANISH.entries()) {
    display.bench.send(letterMessage(code, LETTERS.get(letter)!), 0);
  }
  display.write(LINES.with(1, 'D\x00a \x01\x02\x03\x04\x05\x06\x07'.padEnd(20)));
  return display;
};
const LETTERED = LINES.with(1, 'Dáa éíóúñ¿Í'.padEnd(20));

test('eight letters of a language arrive on the glass, and the text with them', () => {
  const { bench, lines } = withLetters();
  bench.chip.run(0.5);
  expect(lines()).toEqual(LETTERED);
});

test('a display that comes back after a silence is given its letters again', () => {
  const { bench, lines, unplug, plugIn } = withLetters();
  bench.chip.run(0.5);
  unplug();
  bench.chip.run(0.6);
  plugIn();
  bench.chip.run(1.2);
  expect(lines()).toEqual(LETTERED);
});

test.each([
  ['a ninth letter', 8, [0, 0, 0, 0, 0, 0, 0, 0]],
  ['a letter of six columns', 0, [0, 0, 0, 32, 0, 0, 0, 0]],
])('%s is refused', (_, code, rows) => {
  const { bench } = withDisplay();
  bench.send(letterMessage(code, rows), 0.1);
  expect(bench.refusals().map(({ reason }) => REFUSALS[reason])).toEqual(['out-of-range']);
});

test('without a display nothing else suffers', () => {
  const bench = createBench();
  const resets = bench.chip.resets();
  bench.send(textMessage(0, LINES[0]!));
  bench.chip.run(1);
  bench.want(BUSY);
  expect(bench.pins()).toEqual(PINS_BUSY);
  expect(bench.lastFrame().acting & ACTING_BITS.displayAnswers).toBe(0);
  expect(bench.chip.resets()).toBe(resets);
});

test('a row that the display does not have is refused', () => {
  const { bench, write, lines } = withDisplay();
  write(LINES);
  bench.send(textMessage(4, LINES[1]!), 0.3);
  expect(bench.refusals().map(({ reason }) => REFUSALS[reason])).toEqual(['out-of-range']);
  expect(lines()).toEqual(LINES);
});
