/**
 * A pure byte machine in front of firmata-io. It passes whole, well-formed Firmata messages of the
 * kinds that the driver uses, and drops and counts everything else. firmata-io keeps every byte of
 * an unfinished message and indexes pins without checks, so garbage must end here. Damage inside
 * one of our own messages is found by its checksum (protocol.ts).
 */
import { SYSEX_END, SYSEX_START, UNIT_SYSEX } from './protocol.ts';

/** Minimum and maximum length of each accepted sysex message in bytes, start and end included. */
const SYSEX_LENGTHS: Readonly<Record<number, readonly [least: number, most: number]>> = {
  [UNIT_SYSEX]: [7, 64],
  /** Firmware version and name; without a name it is only the query. */
  121: [5, 160],
  /** Capabilities: 22 pins of up to eight modes are 376 bytes; larger stock boards have 70 pins. */
  108: [4, 1024],
  /** Channel of each pin. */
  106: [4, 131],
  /** State of a pin. */
  110: [6, 16],
  /** Text for people. */
  113: [3, 131],
  /** Reply of an I2C device. */
  119: [7, 64],
};

const VERSION = 0xf9;
const ANALOGUE = 0xe0;
const DIGITAL = 0x90;

export interface FilterState {
  /** Bytes of the current message; empty between messages. */
  readonly pending: readonly number[];
  /** Whether the last byte was dropped: a run of dropped bytes counts once. */
  readonly dropping: boolean;
  readonly droppedRuns: number;
  readonly droppedBytes: number;
}

export const FRESH_FILTER: FilterState = {
  pending: [],
  dropping: false,
  droppedRuns: 0,
  droppedBytes: 0,
};

export interface Filtered {
  readonly state: FilterState;
  readonly messages: readonly (readonly number[])[];
}

const startsShort = (byte: number): boolean =>
  byte === VERSION || (byte & 0xf0) === ANALOGUE || (byte & 0xf0) === DIGITAL;
const starts = (byte: number): boolean => byte === SYSEX_START || startsShort(byte);

export function stepFilter(before: FilterState, bytes: Iterable<number>): Filtered {
  const messages: number[][] = [];
  let pending = [...before.pending];
  let { dropping, droppedRuns, droppedBytes } = before;
  const drop = (count: number): void => {
    if (count === 0) return;
    if (!dropping) droppedRuns++;
    dropping = true;
    droppedBytes += count;
  };
  for (const byte of bytes) {
    if (starts(byte)) {
      drop(pending.length);
      pending = [byte];
      continue;
    }
    pending.push(byte);
    const fate = judge(pending);
    if (fate === 'unfinished') continue;
    if (fate === 'whole') {
      messages.push(pending);
      dropping = false;
    } else drop(pending.length);
    pending = [];
  }
  return { state: { pending, dropping, droppedRuns, droppedBytes }, messages };
}

function judge(message: readonly number[]): 'unfinished' | 'whole' | 'malformed' {
  const [first = 0, command = 0] = message;
  const last = message.at(-1) ?? 0;
  if (startsShort(first)) {
    if (last > 0x7f) return 'malformed';
    return message.length === 3 ? 'whole' : 'unfinished';
  }
  if (first !== SYSEX_START) return 'malformed';
  const lengths = SYSEX_LENGTHS[command];
  if (lengths === undefined || message.length > lengths[1]) return 'malformed';
  if (last === SYSEX_END) return message.length >= lengths[0] ? 'whole' : 'malformed';
  return last > 0x7f ? 'malformed' : 'unfinished';
}
