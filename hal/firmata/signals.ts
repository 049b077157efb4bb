/**
 * Display, status lamp and buzzer: signals for people that can do no harm. The display uses the
 * unit's own text message, one changed row at a time, because a whole redraw would keep outputs off
 * the line. Lamp and buzzer are johnny-five's. Flashing follows the frames' time, so there are no
 * timers.
 */
import five from 'johnny-five';
import type { Signals, StatusColour } from '../../src/core/frame.ts';
import { LETTER_SLOTS, LETTERS } from '../../src/core/letters.ts';
import { PINS } from '../../wiring/pin-map.ts';
import { encodeLetter, encodeText, TEXT_COLUMNS, TEXT_ROWS } from './protocol.ts';

export interface SignalDriver {
  /** Sends what has changed: one row of the display, or one letter that it needs first. */
  readonly show: (signals: Signals, timeS: number) => void;
}

const LAMPS = ['red', 'green', 'blue'] as const;
type Lamp = (typeof LAMPS)[number];

const LIT: Readonly<Record<StatusColour, readonly Lamp[]>> = {
  off: [],
  red: ['red'],
  yellow: ['red', 'green'],
  green: ['green'],
  blue: ['blue'],
};

const FLASH_PERIOD_S = 1;
const BEEP_S = 0.15;
const REPEAT_PERIOD_S = 1;

/** Draws everything at first, because a board that has just connected has no content. */
export function createSignals(
  board: five.Board,
  send: (message: readonly number[]) => void,
): SignalDriver {
  const leds: Readonly<Record<Lamp, five.Led>> = {
    red: new five.Led({ pin: PINS.statusRed.firmataPin, board }),
    green: new five.Led({ pin: PINS.statusGreen.firmataPin, board }),
    blue: new five.Led({ pin: PINS.statusBlue.firmataPin, board }),
  };
  const buzzer = new five.Led({ pin: PINS.buzzer.firmataPin, board });
  const lit = new Map<five.Led, boolean>();
  const set = (led: five.Led, on: boolean): void => {
    if (lit.get(led) === on) return;
    lit.set(led, on);
    if (on) led.on();
    else led.off();
  };
  const rows: (string | null)[] = Array.from({ length: TEXT_ROWS }, () => null);
  const codes = new Map<string, number>();
  let nextRow = 0;
  let beep: Beep = { asked: 'off', sinceS: 0 };
  return {
    show: ({ status, buzzer: asked, display }, timeS) => {
      const burning = lightsNow(status, timeS);
      for (const lamp of LAMPS) set(leds[lamp], burning.includes(lamp));
      if (asked !== beep.asked) beep = { asked, sinceS: timeS };
      set(buzzer, sounds(beep, timeS));
      const row = changedRow(rows, display, nextRow);
      if (row === null) return;
      const text = fitted(display[row] ?? '');
      const letter = nextLetter(text, codes);
      if (letter !== null) {
        send(encodeLetter(codes.size, letter.rows));
        codes.set(letter.letter, codes.size);
        return;
      }
      rows[row] = text;
      nextRow = (row + 1) % TEXT_ROWS;
      send(encodeText(row, codesOf(text, codes)));
    },
  };
}

/** Lamps that are lit now; a flashing lamp is dark in the second half of each period. */
export function lightsNow(status: Signals['status'], timeS: number): readonly Lamp[] {
  const dark = status.flashing && timeS % FLASH_PERIOD_S >= FLASH_PERIOD_S / 2;
  return dark ? [] : LIT[status.colour];
}

export interface Beep {
  readonly asked: Signals['buzzer'];
  readonly sinceS: number;
}

export function sounds({ asked, sinceS }: Beep, timeS: number): boolean {
  if (asked === 'off') return false;
  const soundingS = timeS - sinceS;
  return (asked === 'once' ? soundingS : soundingS % REPEAT_PERIOD_S) < BEEP_S;
}

/** Rows take turns, so that one that always changes cannot starve the others. */
function changedRow(
  shown: readonly (string | null)[],
  display: readonly string[],
  from: number,
): number | null {
  const order = shown.map((_, i) => (from + i) % TEXT_ROWS);
  return order.find((row) => shown[row] !== fitted(display[row] ?? '')) ?? null;
}

const fitted = (line: string): string => [...line].slice(0, TEXT_COLUMNS).join('');

/** A letter of the line that the display was not given yet; null where none is, or no code is left. */
function nextLetter(text: string, codes: ReadonlyMap<string, number>) {
  if (codes.size >= LETTER_SLOTS) return null;
  for (const letter of text) {
    const rows = LETTERS.get(letter);
    if (rows !== undefined && !codes.has(letter)) return { letter, rows };
  }
  return null;
}

const FIRST_PRINTABLE = 0x20;
const LAST_PRINTABLE = 0x7d;
const BLANK = 0x20;
const UNKNOWN = 0x3f;

/**
 * Display codes of a line. They agree with ASCII here; `letters` are those that were loaded, by
 * their codes; an unsupported character becomes "?".
 */
export function codesOf(line: string, letters: ReadonlyMap<string, number> = new Map()): number[] {
  // The display has other characters at these two codes.
  const differs = (code: number): boolean => code === 0x5c || code === 0x7e;
  const codes = [...line].map((character) => {
    const loaded = letters.get(character);
    if (loaded !== undefined) return loaded;
    const code = character.codePointAt(0) ?? UNKNOWN;
    const known = code >= FIRST_PRINTABLE && code <= LAST_PRINTABLE && !differs(code);
    return known ? code : UNKNOWN;
  });
  return [...codes, ...Array.from({ length: TEXT_COLUMNS - codes.length }, () => BLANK)];
}
