/**
 * A device on the display bus that holds the data line low, as one does that was interrupted in a
 * byte: the board clocks it free, says meanwhile that the display does not answer, and sets the
 * display up again.
 */
import { expect, test } from 'vitest';
import { ACTING_BITS, encodeText, UNIT_SYSEX } from '../../../../hal/firmata/protocol.ts';
import { DISPLAY_ADDRESS, PINS } from '../../../../wiring/pin-map.ts';
import { BUSY, createBench, PINS_BUSY, sysex } from '../bench.ts';

const DDRC = 0x27;
const CLOCK = 1 << 5;
/** A byte and its acknowledgement. */
const CLOCKS_TO_FREE = 9;

const text = (words: string) =>
  sysex([UNIT_SYSEX, ...encodeText(0, [...Buffer.from(words.padEnd(20))])]);

test('a data line stuck low is clocked free, and the display set up again', () => {
  const received: number[] = [];
  const display = { write: (byte: number) => received.push(byte) };
  const bench = createBench({ i2c: new Map([[DISPLAY_ADDRESS, display]]) });
  const answers = () => (bench.lastFrame().acting & ACTING_BITS.displayAnswers) !== 0;
  bench.send(text('before'), 0.3);
  expect(answers()).toBe(true);

  bench.chip.setLevel(PINS.displayData.firmataPin, false);
  bench.send(text('stuck'), 0);
  let clocks = 0;
  let wasLow = false;
  for (let us = 0; us < 100_000 && clocks < CLOCKS_TO_FREE; us += 10) {
    bench.chip.run(0.00001);
    const isLow = (bench.chip.peek(DDRC) & CLOCK) !== 0;
    if (wasLow && !isLow) clocks += 1;
    wasLow = isLow;
  }
  expect(clocks).toBe(CLOCKS_TO_FREE);
  bench.chip.run(0.03);
  expect(answers()).toBe(false);
  bench.want(BUSY);
  expect(bench.pins()).toEqual(PINS_BUSY);

  bench.chip.setLevel(PINS.displayData.firmataPin, true);
  received.length = 0;
  bench.chip.run(1.2);
  expect(answers()).toBe(true);
  // Set up by instruction, from any state: its first nibble is 3.
  expect((received[0] ?? 0) >> 4).toBe(3);
  expect(bench.trips()).toEqual([]);
});
