/**
 * The display as its glass shows it: a 20 x 4 character module, HD44780-compatible and driven with
 * four data lines, behind an 8-bit port expander. It takes the expander's bytes one by one and
 * keeps the module's state, with the characters that were loaded into it. Commands that only change
 * the look (cursor, font) are ignored; the module's busy time is not modelled.
 */
import type { DisplayLines } from '../../src/core/frame.ts';
import { LETTER_ROWS, LETTERS } from '../../src/core/letters.ts';
import { DISPLAY_BITS } from '../../wiring/pin-map.ts';

export interface DisplayState {
  readonly expander: number;
  /** After power-up a byte is taken from four lines at once, until a command selects 4 bits. */
  readonly width: 4 | 8;
  readonly highNibble: number | null;
  readonly address: number;
  /** False while data goes to the programmable characters; `address` is then theirs. */
  readonly toScreen: boolean;
  readonly on: boolean;
  readonly codes: readonly number[];
  /** Rows of the programmable characters, one character after the other. */
  readonly dots: readonly number[];
}

const BLANK = 0x20;
const ADDRESSES = 0x80;
const DOT_ROWS = 0x40;

export const DISPLAY_AT_POWER_UP: DisplayState = {
  expander: 0,
  width: 8,
  highNibble: null,
  address: 0,
  toScreen: true,
  on: false,
  codes: new Array<number>(ADDRESSES).fill(BLANK),
  dots: new Array<number>(DOT_ROWS).fill(0),
};

const mask = (bit: number): number => 1 << bit;
const ENABLE = mask(DISPLAY_BITS.enable);
const DATA = mask(DISPLAY_BITS.registerSelect);
const READ = mask(DISPLAY_BITS.readWrite);

/** One byte on the expander's outputs; the module takes its lines as `enable` falls. */
export function stepDisplay(state: DisplayState, byte: number): DisplayState {
  const falls = (state.expander & ENABLE) !== 0 && (byte & ENABLE) === 0;
  const next = { ...state, expander: byte };
  // The lines as they were while enable was high: they may change with its falling edge.
  const lines = state.expander;
  if (!falls || (lines & READ) !== 0) return next;
  const nibble = lines >> 4;
  const isData = (lines & DATA) !== 0;
  if (state.width === 8) return take(next, nibble << 4, isData);
  if (state.highNibble === null) return { ...next, highNibble: nibble };
  return take({ ...next, highNibble: null }, (state.highNibble << 4) | nibble, isData);
}

function take(state: DisplayState, value: number, isData: boolean): DisplayState {
  if (!isData) return command(state, value);
  if (!state.toScreen) {
    const dots = state.dots.with(state.address, value & 0x1f);
    return { ...state, dots, address: (state.address + 1) % DOT_ROWS };
  }
  const codes = [...state.codes];
  codes[state.address] = value;
  return { ...state, codes, address: nextAddress(state.address) };
}

type Command = (state: DisplayState, value: number) => DisplayState;

/** By the highest bit that is set, as the module distinguishes them. */
const COMMANDS: readonly (readonly [lowest: number, run: Command])[] = [
  [0x80, (state, value) => ({ ...state, address: value & 0x7f, toScreen: true })],
  [0x40, (state, value) => ({ ...state, address: value & 0x3f, toScreen: false })],
  [0x20, (state, value) => ({ ...state, width: (value & 0x10) !== 0 ? 8 : 4, highNibble: null })],
  [0x10, (state) => state],
  [0x08, (state, value) => ({ ...state, on: (value & 0x04) !== 0 })],
  [0x04, (state) => state],
  [0x02, (state) => ({ ...state, address: 0, toScreen: true })],
  [0x01, (state) => ({ ...state, address: 0, toScreen: true, codes: DISPLAY_AT_POWER_UP.codes })],
];

function command(state: DisplayState, value: number): DisplayState {
  const row = COMMANDS.find(([lowest]) => value >= lowest);
  return row === undefined ? state : row[1](state, value);
}

const LINE_LENGTH = 40;
const FIRST_LINE = 0x00;
const SECOND_LINE = 0x40;

/** Two lines of 40 in memory: the second follows the end of the first. */
function nextAddress(address: number): number {
  if (address === FIRST_LINE + LINE_LENGTH - 1) return SECOND_LINE;
  if (address === SECOND_LINE + LINE_LENGTH - 1) return FIRST_LINE;
  return (address + 1) % ADDRESSES;
}

/** Where each row of the glass begins in memory. */
const ROW_STARTS = [0x00, 0x40, 0x14, 0x54] as const;
const COLUMNS = 20;
/** Where the module's character set differs from ASCII. */
const GLYPHS: ReadonlyMap<number, string> = new Map([
  [0x5c, '¥'],
  [0x7e, '→'],
  [0x7f, '←'],
  [0xdf, '°'],
]);

/**
 * Four lines of exactly 20 characters; a code without a character here shows as a question mark.
 */
export function linesOf({ on, codes, dots }: DisplayState): DisplayLines {
  const row = (index: 0 | 1 | 2 | 3): string => {
    if (!on) return ' '.repeat(COLUMNS);
    const start = ROW_STARTS[index];
    return codes
      .slice(start, start + COLUMNS)
      .map((code) => (code < 0x10 ? letterOf(code & 7, dots) : glyph(code)))
      .join('');
  };
  return [row(0), row(1), row(2), row(3)];
}

const LETTER_OF_DOTS = new Map([...LETTERS].map(([letter, rows]) => [String(rows), letter]));

/** A programmable character as a person reads it; unknown dots read as a question mark. */
const letterOf = (code: number, dots: readonly number[]): string =>
  LETTER_OF_DOTS.get(String(dots.slice(code * LETTER_ROWS, (code + 1) * LETTER_ROWS))) ?? '?';

const glyph = (code: number): string =>
  GLYPHS.get(code) ?? (code >= BLANK && code < 0x7e ? String.fromCharCode(code) : '?');
