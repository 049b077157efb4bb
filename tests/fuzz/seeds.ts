/**
 * The inputs that the fuzzer starts from: sound messages of a host, encoded by the protocol itself,
 * in the surroundings that chip.h names. Pure.
 */
import * as p from '../../hal/firmata/protocol.ts';

const unit = (message: readonly number[]) => [p.SYSEX_START, p.UNIT_SYSEX, ...message, p.SYSEX_END];
const sysex = (...bytes: number[]) => [p.SYSEX_START, ...bytes, p.SYSEX_END];

const outputs = (sequence: number, flags: number, pump: number, lamp: number) =>
  unit(p.encodeFields(p.KINDS.outputs, p.OUTPUTS_LAYOUT, { sequence, flags, pump, lamp }));
const limits = (changed: Partial<p.Fields<typeof p.LIMITS_LAYOUT>>) =>
  unit(p.encodeFields(p.KINDS.limits, p.LIMITS_LAYOUT, { ...p.COMPILED_LIMITS, ...changed }));
const letter = (code: number) => unit(p.encodeLetter(code, Array(8).fill(code)));
const text = (row: number) => unit(p.encodeText(row, Array(p.TEXT_COLUMNS).fill(0x41 + row)));

const { selectorPressure, ventOpen, lampEnabled, clearTrips } = p.OUTPUT_FLAGS;
const pumping = (sequence: number) => outputs(sequence, selectorPressure, 120, 0);
const curing = (sequence: number) => outputs(sequence, ventOpen | lampEnabled, 0, p.FULL_DUTY);
const clearing = (sequence: number) => outputs(sequence, ventOpen | clearTrips, 0, 0);

/** Firmata's own, of each command that the firmware knows; numbers of the protocol, version 2.5. */
const FIRMATA = [
  sysex(0x79),
  sysex(0x6b),
  sysex(0x69),
  sysex(0x6d, 9),
  sysex(0x6f, 9, 127, 1),
  sysex(0x7a, 10, 0),
  sysex(0x78, 0, 0),
  sysex(0x76, 0x27, 0, 8, 0, 12, 1),
  sysex(0x76, 0x27, 8, 1, 0),
  [0xf9],
  [0xff],
  [0x90, 127, 1],
  [0x91, 127, 1],
  [0xc0, 1],
  [0xd0, 1],
  [0xe9, 127, 1],
  [0xf4, 13, 1],
  [0xf5, 9, 1],
  [0xf5, 13, 1],
];

/** As many bytes in one write as the parser's buffer takes, and more writes than the queue does. */
const longWrite = sysex(0x76, 0x27, 0, ...Array(29).fill([100, 0]).flat());

const STREAMS = [
  Array(7).fill(longWrite).flat(),
  [pumping(1), curing(2), clearing(3)],
  [curing(1), curing(2), curing(2), clearing(3), pumping(4)],
  [outputs(1, 16, 0, 0), outputs(2, 0, 256, 0), pumping(8191), pumping(8192), pumping(1)],
  [limits({}), limits({ leaseMs: 100 }), pumping(1)],
  [limits({ pressureCeiling: 1023 }), limits({ heatSinkFloor: 0 }), limits({ leaseMs: 99 })],
  [0, 1, 2, 3, 4].map(text),
  [0, 1, 7, 8].map(letter),
  [...FIRMATA, curing(1), ...FIRMATA],
  [sysex(0x7a, 10, 0), pumping(1), text(0), curing(2), Array(80).fill(0x41), clearing(3)],
  [pumping(1).slice(0, 7), curing(2), sysex(...Array(70).fill(p.UNIT_SYSEX)), pumping(3)],
];

/** Bytes a millisecond, quiet milliseconds after them, surroundings. */
const HEADERS = [
  [25, 0, 0],
  [120, 0, 0],
  [200, 0, 8],
  [16, 120, 0],
  [12, 3, 1],
  [12, 3, 2 | 16],
  [12, 3, 4 | 32],
  [12, 10, 64],
];

export const SEEDS: readonly Uint8Array[] = STREAMS.flatMap((stream) =>
  HEADERS.map((header) => Uint8Array.from([...header, ...stream.flat()])),
);
