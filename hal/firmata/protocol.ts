/**
 * The unit's own messages on top of Firmata: numbers and layouts for the host and for the firmware,
 * whose protocol.h is generated from this file. All use one sysex command from the range that
 * Firmata reserves for users:
 *
 *   F0 0D kind fields... check check check F7
 *
 * Every field is an unsigned number in seven-bit groups, lowest first. The check is the
 * CRC-16/XMODEM of all bytes from `kind` to the last field as sent, in three groups.
 */
import { crc16xmodem } from 'crc';
import { CHANNELS, type LadderReading, type Trip } from '../../src/core/frame.ts';
import { LETTER_ROWS, type LetterRows } from '../../src/core/letters.ts';

export const FIRMWARE_NAME = 'meniscus';
/** Major: the messages changed, so host and board must match. Minor: only the board changed. */
export const FIRMWARE_VERSION = { major: 4, minor: 0 } as const;

/** Exact with a 16 MHz crystal, and fast enough for frame and answer to pass in 2 ms. */
export const BAUD = 250_000;
export const SYSEX_START = 0xf0;
export const SYSEX_END = 0xf7;
export const UNIT_SYSEX = 0x0d;

export const KINDS = {
  /** Board to host. */
  frame: 0x01,
  limitsReport: 0x02,
  refusal: 0x03,
  /** Host to board. */
  outputs: 0x11,
  limits: 0x12,
  text: 0x13,
  letter: 0x14,
} as const;

/** The board's trips, in bit order of the frame's field. */
export const TRIP_BITS = [
  'emergency-stop',
  'over-pressure-switch',
  'pressure-ceiling',
  'pressure-sensor',
  'shield',
  'heat-sink',
  'lamp-time',
  'watchdog',
  'settings',
  'glass-hot',
  'memory',
  'program',
  'output-pins',
  'converter',
  'registers',
  'restart-unknown',
  'restart-loop',
] as const satisfies readonly Trip[];

/** Name of each field and its length in bytes; a byte carries seven bits. */
export type Layout = readonly (readonly [name: string, bytes: number])[];

/** The converter's ten bits. */
const COUNTS_BYTES = 2;

export const FRAME_LAYOUT = [
  ['sequence', 2],
  ['timeMs', 5],
  ...CHANNELS.map((channel) => [channel, COUNTS_BYTES] as const),
  ['switches', 1],
  ['presses', 2],
  /** Index into LADDER_STEPS. */
  ['ladder', 1],
  ['trips', 3],
  ['acting', 1],
  ['pump', 2],
  ['lamp', 2],
  ['badMessages', 1],
] as const satisfies Layout;

export const OUTPUTS_LAYOUT = [
  /** Rises with every message; the board takes none that is not newer than its last. */
  ['sequence', 2],
  ['flags', 1],
  ['pump', 2],
  ['lamp', 2],
] as const satisfies Layout;

/** Hard limits of the board's own protection; a host may only tighten them. */
export const LIMITS_LAYOUT = [
  /** Highest counts of the pressure channel. */
  ['pressureCeiling', 2],
  /** Lowest counts of the heat sink channel: a hotter thermistor reads lower. */
  ['heatSinkFloor', 2],
  ['longestLampOnS', 2],
  ['leaseMs', 2],
  /** Lowest counts of the glass channel while the lamp burns. */
  ['glassFloor', 2],
] as const satisfies Layout;

export const LIMITS_REPORT_LAYOUT = [
  /** Index into LIMITS_VERDICTS. */
  ['verdict', 1],
  /** Index into LIMITS_LAYOUT of the limit that would loosen; 127 for none. */
  ['offender', 1],
  /** The last sequence number that the board has taken with outputs: a host goes on from there. */
  ['taken', 2],
  ...LIMITS_LAYOUT,
] as const satisfies Layout;

export const REFUSAL_LAYOUT = [
  ['refusedKind', 1],
  /** Index into REFUSALS. */
  ['reason', 1],
] as const satisfies Layout;

export const TEXT_COLUMNS = 20;
export const TEXT_ROWS = 4;
/** One row of the display: its number, then the display's own character codes, 0 to 127. */
export const TEXT_LAYOUT = [
  ['row', 1],
  ['characters', TEXT_COLUMNS],
] as const satisfies Layout;

/** One programmable character: its code, then its rows of five dots from the top. */
export const LETTER_LAYOUT = [
  ['code', 1],
  ['rows', LETTER_ROWS],
] as const satisfies Layout;

export const LIMITS_VERDICTS = ['accepted', 'bad-checksum', 'would-loosen', 'malformed'] as const;
export const REFUSALS = [
  'bad-checksum',
  'malformed',
  'out-of-range',
  'unknown-kind',
  'repeated',
] as const;

export const SWITCH_BITS = { shieldClosed: 1, overPressureTripped: 2, emergencyStopPressed: 4 };
export const ACTING_BITS = {
  selectorPressure: 1,
  ventOpen: 2,
  lampEnabled: 4,
  leased: 8,
  displayAnswers: 16,
  /** The limits in force are a host's: cleared by a reset, and when they were spoilt. */
  hostLimits: 32,
};
export const OUTPUT_FLAGS = {
  selectorPressure: 1,
  ventOpen: 2,
  lampEnabled: 4,
  /** Honoured only when the same message asks for the safe state. */
  clearTrips: 8,
};
/** Press count of each button, modulo 4, two bits each: no press is lost with a frame. */
export const PRESS_SHIFT = { yes: 0, no: 2, more: 4, hold: 6 } as const;
/** What the button ladder reads, by the index that the frame carries. */
export const LADDER_STEPS = [
  'released',
  'hold',
  'yes',
  'no',
  'more',
  'between',
  'open',
] as const satisfies readonly LadderReading[];

export const FULL_DUTY = 255;

/**
 * The compiled ceilings: demo values for a 400 kPa absolute transmitter, a 10 kOhm thermistor and
 * the demo unit. Each is a little outside the widest limit that the unit's settings accept.
 */
export const COMPILED_LIMITS = {
  /** 305 kPa absolute. */
  pressureCeiling: 726,
  /** 90 degrees Celsius: about 920 Ohm. */
  heatSinkFloor: 86,
  longestLampOnS: 3600,
  leaseMs: 500,
  /** 70 degrees Celsius: about 1750 Ohm. */
  glassFloor: 152,
} as const;

/** Outside this the pressure wire is broken or shorted: half way between dead and live zero. */
export const PRESSURE_LIVE = { lowest: 51, highest: 972 } as const;
/**
 * The chip's own 1.1 V against its supply: 1.0 to 1.2 V (data sheet, electrical characteristics; from
 * memory) at 4.5 to 5.5 V.
 */
export const REFERENCE_LIVE = { lowest: 186, highest: 273 } as const;
/** A divider this close to a rail means an open or shorted thermistor. */
export const THERMISTOR_LIVE = { lowest: 15, highest: 1008 } as const;

type FieldNames<L extends Layout> = L[number][0];
export type Fields<L extends Layout> = Readonly<Record<FieldNames<L>, number>>;

const GROUP = 128;
const CHECK_BYTES = 3;

function groups(value: number, bytes: number): number[] {
  const out: number[] = [];
  for (let left = value, i = 0; i < bytes; i++, left = Math.floor(left / GROUP)) {
    out.push(left % GROUP);
  }
  return out;
}

function ungroup(bytes: readonly number[]): number {
  return bytes.reduceRight((value, byte) => value * GROUP + byte, 0);
}

/**
 * `kind fields check`: the part between the sysex command and its end, for Firmata's sysexCommand.
 */
function checked(kind: number, body: readonly number[]): number[] {
  const bytes = [kind, ...body];
  return [...bytes, ...groups(crc16xmodem(Buffer.from(bytes)), CHECK_BYTES)];
}

export function encodeFields<L extends Layout>(
  kind: number,
  layout: L,
  fields: Fields<L>,
): number[] {
  const names = fields as Readonly<Record<string, number>>;
  return checked(
    kind,
    layout.flatMap(([name, bytes]) => groups(names[name] ?? 0, bytes)),
  );
}

export function encodeText(row: number, codes: readonly number[]): number[] {
  return checked(KINDS.text, [row, ...codes]);
}

export function encodeLetter(code: number, rows: LetterRows): number[] {
  return checked(KINDS.letter, [code, ...rows]);
}

export type Decoded =
  | { readonly ok: true; readonly kind: number; readonly body: readonly number[] }
  | { readonly ok: false };

/** Inverse of `checked`; not ok when the check does not match or there is nothing to check. */
export function openMessage(message: readonly number[]): Decoded {
  if (message.length <= CHECK_BYTES) return { ok: false };
  const bytes = message.slice(0, -CHECK_BYTES);
  const check = ungroup(message.slice(-CHECK_BYTES));
  const [kind = 0, ...body] = bytes;
  if (crc16xmodem(Buffer.from(bytes)) !== check) return { ok: false };
  return { ok: true, kind, body };
}

/** The fields of a body; null when its length does not match the layout. */
export function decodeFields<L extends Layout>(
  layout: L,
  body: readonly number[],
): Fields<L> | null {
  const length = layout.reduce((sum, [, bytes]) => sum + bytes, 0);
  if (body.length !== length) return null;
  const fields: Record<string, number> = {};
  let at = 0;
  for (const [name, bytes] of layout) {
    fields[name] = ungroup(body.slice(at, at + bytes));
    at += bytes;
  }
  return fields as Fields<L>;
}
