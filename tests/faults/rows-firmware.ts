/**
 * Faults of the chip and its firmware, which only the emulated board can have: bits of its memory,
 * registers and program, its converter, its display's bus.
 */
import imageFacts from '../../hal/firmware/image/image.json' with { type: 'json' };
import type { EmulatedBench } from '../../sim/emulator/emulated-bench.ts';

export interface FirmwareRow {
  readonly id: string;
  readonly title: string;
  readonly act: (bench: EmulatedBench) => void;
}

const { keptLimits, keptRequest, keptTrips, keptNowMs, endOfData } = imageFacts.dataAddresses;

/** Places in data memory: data sheet, register summary. */
const REGISTERS = { directionsB: 0x24, tickLength: 0xb3, tickMask: 0x70, lineRate: 0xc4 } as const;
/** A byte of a text, which is no instruction. */
const TEXT_BYTE = 0x70;
/** An interrupt that the program does not use: change of a pin of port B. */
const UNUSED_VECTOR = 4;

const flipped =
  (address: number, bit: number) =>
  ({ chip }: EmulatedBench): void =>
    chip.poke(address, chip.peek(address) ^ (1 << bit));

export const FIRMWARE_ROWS: readonly FirmwareRow[] = [
  { id: 'ram-limits', title: 'a bit of the kept limits', act: flipped(keptLimits, 3) },
  { id: 'ram-request', title: 'a bit of the kept request', act: flipped(keptRequest, 6) },
  { id: 'ram-trips', title: 'a bit of the kept trips', act: flipped(keptTrips, 0) },
  { id: 'ram-clock', title: 'a high bit of the chip’s time', act: flipped(keptNowMs + 2, 4) },
  {
    id: 'stack-full',
    title: 'the stack reaches the data',
    act: ({ chip }) => chip.poke(endOfData + 3, 0),
  },
  {
    id: 'flash-bit',
    title: 'a bit of the program',
    act: ({ chip }) => chip.faults.flipFlash(TEXT_BYTE, 2),
  },
  {
    id: 'pin-direction',
    title: 'an output pin becomes an input',
    act: flipped(REGISTERS.directionsB, 1),
  },
  { id: 'tick-length', title: 'the tick becomes longer', act: flipped(REGISTERS.tickLength, 4) },
  { id: 'tick-off', title: 'the tick’s interrupt is off', act: flipped(REGISTERS.tickMask, 1) },
  { id: 'line-rate', title: 'another rate of the line', act: flipped(REGISTERS.lineRate, 4) },
  {
    id: 'stray-interrupt',
    title: 'an interrupt that nothing asked for',
    act: ({ chip }) => chip.faults.interrupt(UNUSED_VECTOR),
  },
  { id: 'program-hangs', title: 'the program hangs', act: ({ chip }) => chip.hang() },
  {
    id: 'restart-unexplained',
    title: 'the program begins anew, and nothing says why',
    act: ({ chip }) => chip.faults.restartUnexplained(),
  },
  {
    id: 'chip-converter-stalls',
    title: 'the converter gives nothing',
    act: ({ chip }) => chip.faults.stallConverter(true),
  },
  {
    id: 'display-unplugged',
    title: 'the display is unplugged',
    act: ({ setDisplayPlugged }) => setDisplayPlugged(false),
  },
  {
    id: 'line-one-way',
    title: 'nothing reaches the board any more',
    act: ({ cable }) => cable.setMute('to-board', true),
  },
];
