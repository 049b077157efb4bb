/** Writes on the two-wire bus for a host: whole, in order, and never in the way of anything else. */
import { expect, test } from 'vitest';
import { BUSY, createBench, PINS_BUSY, sysex, sysexesIn } from './bench.ts';

/** Control register of the bus; the hung bus below is one that never says that it is done. */
const TWCR = 0xbc;
const HUNG_AFTER_S = 0.02;
/** Bytes of the queue, of which one stays free; a write takes two more than it carries. */
const QUEUE_BYTES = 128;

const write = (address: number, bytes: readonly number[], mode = 0) =>
  sysex([0x76, address, mode, ...bytes.flatMap((byte) => [byte & 127, byte >> 7])]);
const withDevice = (address: number) => {
  const received: number[] = [];
  let stops = 0;
  const device = {
    write: (byte: number) => received.push(byte),
    stop: () => {
      stops += 1;
    },
  };
  return {
    bench: createBench({ samplingMs: null, i2c: new Map([[address, device]]) }),
    received,
    stops: () => stops,
  };
};
const count = (length: number, from: number) => Array.from({ length }, (_, i) => (from + i) & 255);

test('the longest write that a message holds arrives whole', () => {
  const { bench, received, stops } = withDevice(0x20);
  bench.send(write(0x20, count(30, 200)), 0.01);
  expect(received).toEqual(count(30, 200));
  expect(stops()).toBe(1);
});

test('a write of nothing and one with half a byte at its end do no harm', () => {
  const { bench, received } = withDevice(0x20);
  bench.send([...write(0x20, []), ...sysex([0x76, 0x20, 0, 7, 1, 9])], 0.01);
  expect(received).toEqual([135]);
  bench.send(sysex([0x76, 0x20]), 0.01);
  bench.send(write(0x20, [5]), 0.01);
  expect(received).toEqual([135, 5]);
});

test('writes in a row arrive one after another, in order', () => {
  const { bench, received, stops } = withDevice(0x20);
  for (let i = 0; i < 40; i++) bench.send(write(0x20, count(6, 6 * i)), 0);
  bench.chip.run(0.01);
  expect(received).toEqual(count(240, 0));
  expect(stops()).toBe(40);
});

test('a write that nobody answers costs no later one', () => {
  const { bench, received } = withDevice(0x20);
  bench.send([...write(0x21, count(5, 1)), ...write(0x20, [1, 2]), ...write(0x22, [3])], 0.02);
  bench.send(write(0x20, [4]), 0.02);
  expect(received).toEqual([1, 2, 4]);
});

test('ten-bit addresses and reads are turned down and nothing reaches the bus', () => {
  for (const mode of [0x20, 0x08, 0x10, 0x18]) {
    const { bench, received } = withDevice(0x20);
    bench.sent.length = 0;
    bench.send(write(0x20, [1, 2], mode), 0.03);
    expect(received).toEqual([]);
    expect(sysexesIn(bench.sent).map(([command]) => command)).toEqual([0x71]);
  }
});

/** A bus in the middle of a write that never comes to its end. */
function withHungBus() {
  const setting = withDevice(0x20);
  setting.bench.chip.receive(write(0x20, [1, 2, 3]));
  setting.bench.timeUntil(() => setting.received.length === 1);
  // The interrupt has put the next byte on its way, which takes 90 us.
  setting.bench.chip.run(0.00004);
  setting.bench.chip.poke(TWCR, 0);
  setting.received.length = 0;
  setting.bench.sent.length = 0;
  return setting;
}

test('a bus that hangs is let go after 20 ms, and writes go out again', () => {
  const { bench, received } = withHungBus();
  bench.send([...write(0x20, [7]), ...write(0x20, [8])], HUNG_AFTER_S - 0.005);
  expect(received.filter((byte) => byte === 8)).toEqual([]);
  bench.chip.run(0.008);
  expect(received.at(-1)).toBe(8);
  bench.want(BUSY);
  expect(bench.pins()).toEqual(PINS_BUSY);
});

test('while the bus hangs its queue takes what it holds, and tells of what it drops', () => {
  const { bench, received } = withHungBus();
  for (let i = 0; i < 60; i++) bench.chip.receive(write(0x20, [100 + i]));
  bench.chip.run(0.06);
  const told = sysexesIn(bench.sent).map((bytes) =>
    String.fromCharCode(...bytes.slice(1).filter((_, i) => i % 2 === 0)),
  );
  expect(told.length).toBeGreaterThan(0);
  expect(new Set(told)).toEqual(new Set(['I2C write dropped: queue full']));
  // A write takes three bytes of the queue; some of it holds what the bus hung on.
  const queued = received.filter((byte) => byte >= 100);
  const held = Math.floor(QUEUE_BYTES / 3);
  expect(queued.length).toBeGreaterThanOrEqual(held - 3);
  expect(queued.length).toBeLessThanOrEqual(held);
  expect(queued).toEqual(queued.map((_, i) => 100 + i));
  bench.send(write(0x20, [9]), 0.01);
  expect(received.at(-1)).toBe(9);
});
