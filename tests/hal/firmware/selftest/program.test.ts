/**
 * The program itself: its flash, its stack, its interrupts, its measurements, and how it came to
 * start. Safe within the tolerated time, and named.
 */
import { describe, expect, test } from 'vitest';
import {
  type Bench,
  BUSY,
  CLEAR,
  createBench,
  imageFacts,
  intervalMessage,
  PINS_BUSY,
} from '../bench.ts';
import { isOff, TWO_TICKS_S, timeUntilOff, tripsAndStays } from './harm.ts';

const BOOT_S = 0.08;
/** One pass of the flash in slices. */
const FLASH_PASS_S = 1;
const busy = (): Bench => {
  const bench = createBench();
  bench.want(BUSY);
  return bench;
};
/** After a restart, as a host does. */
const askAgain = (bench: Bench) => {
  bench.chip.run(BOOT_S);
  bench.send(intervalMessage(10));
};

describe('flash', () => {
  // Texts that no machine instruction is part of: the program runs on as before.
  const HARMLESS_BYTE = 0x70;

  test('a changed bit is found within a pass, and stays until a reset', () => {
    const bench = busy();
    bench.chip.faults.flipFlash(HARMLESS_BYTE, 2);
    expect(timeUntilOff(bench, 2)).toBeLessThan(FLASH_PASS_S);
    expect(tripsAndStays(bench)).toEqual(['program']);
    bench.want(CLEAR);
    expect(bench.trips()).toEqual(['program']);
  });

  test('a changed bit is found at the start, and nothing ever acts', () => {
    const bench = busy();
    bench.chip.faults.flipFlash(HARMLESS_BYTE, 5);
    bench.chip.powerCycle();
    askAgain(bench);
    expect(tripsAndStays(bench)).toEqual(['program']);
    bench.want(CLEAR);
    expect(bench.trips()).toEqual(['program']);
  });

  test('a changed check is found, too', () => {
    const bench = busy();
    bench.chip.faults.flipFlash(imageFacts.sizeBytes - 1, 0);
    expect(timeUntilOff(bench, 2)).toBeLessThan(FLASH_PASS_S);
    expect(tripsAndStays(bench)).toEqual(['program']);
  });
});

test('a stack that grows to the end of its room trips within two ticks, and stays', () => {
  const bench = busy();
  bench.chip.poke(imageFacts.dataAddresses.endOfData + 3, 0);
  expect(timeUntilOff(bench, 0.02)).toBeLessThan(TWO_TICKS_S);
  expect(tripsAndStays(bench)).toEqual(['memory']);
  bench.want(CLEAR);
  expect(bench.trips()).toEqual(['memory']);
});

/** Vectors that the program uses: reset, tick, receiver, transmitter, converter, bus. */
const USED: readonly number[] = [1, 8, 19, 20, 22, 25];
const UNUSED = Array.from({ length: 26 }, (_, i) => i + 1).filter(
  (vector) => !USED.includes(vector),
);

test.each(UNUSED)(
  'interrupt %i, which nothing asked for: off at once, restarted, named',
  (vector) => {
    const bench = busy();
    bench.chip.faults.interrupt(vector);
    bench.chip.run(0.00001);
    expect(isOff(bench)).toBe(true);
    bench.chip.run(0.03);
    askAgain(bench);
    expect(tripsAndStays(bench)).toEqual(['watchdog', 'program']);
    bench.want(CLEAR);
    bench.want(BUSY);
    expect(bench.pins()).toEqual(PINS_BUSY);
  },
);

describe('measurements', () => {
  test('a converter that stands still trips, board time goes on, and no count is made up', () => {
    const bench = busy();
    bench.chip.faults.stallConverter(true);
    expect(timeUntilOff(bench, 0.02)).toBeLessThan(0.004);
    expect(tripsAndStays(bench)).toContain('converter');
    const before = bench.lastFrame();
    bench.chip.run(0.2);
    const after = bench.lastFrame();
    expect(after.timeMs - before.timeMs).toBeGreaterThan(150);
    for (const counts of [after.pressure, after.irradiance, after.glassTemperature]) {
      expect(counts).toBe(1023);
    }
    expect(after.presses).toBe(before.presses);
    bench.chip.faults.stallConverter(false);
    bench.chip.run(0.01);
    bench.want(CLEAR);
    expect(bench.trips()).toEqual([]);
    expect(bench.lastFrame().pressure).toBe(300);
  });

  // 1.1 V against this many volts, which should be 5.
  test.each([3.9, 6.5])('a reference of %f V trips', (volts) => {
    const bench = busy();
    bench.chip.faults.setConverterSupply(volts);
    expect(timeUntilOff(bench, 0.02)).toBeLessThan(0.005);
    expect(tripsAndStays(bench)).toContain('converter');
  });

  test.each([4.6, 5.4])('a reference of %f V is within what the chip promises', (volts) => {
    const bench = createBench();
    bench.chip.faults.setConverterSupply(volts);
    expect(bench.trips()).toEqual([]);
  });
});

describe('starting', () => {
  test('a reset that nothing explains is named, and nothing acts until it is cleared', () => {
    const bench = busy();
    bench.chip.faults.restartUnexplained();
    expect(timeUntilOff(bench, 0.02)).toBeLessThan(0.001);
    askAgain(bench);
    expect(tripsAndStays(bench)).toEqual(['restart-unknown']);
    bench.want(CLEAR);
    expect(bench.trips()).toEqual([]);
    bench.want(BUSY);
    expect(bench.pins()).toEqual(PINS_BUSY);
  });

  test('a board that restarts again and again is named, and has to run for ten seconds', () => {
    const bench = busy();
    for (let i = 0; i < 4; i++) {
      bench.chip.hang();
      bench.chip.run(0.4);
      bench.want(BUSY);
      expect(isOff(bench)).toBe(true);
    }
    askAgain(bench);
    expect(tripsAndStays(bench)).toEqual(['watchdog', 'restart-loop']);
    bench.want(CLEAR);
    expect(bench.trips()).toEqual(['restart-loop']);
    bench.chip.run(10);
    bench.want(CLEAR);
    expect(bench.trips()).toEqual([]);
  });

  test('two restarts are no loop, and power-up is none', () => {
    const bench = busy();
    for (let i = 0; i < 2; i++) {
      bench.chip.hang();
      bench.chip.run(0.4);
    }
    askAgain(bench);
    expect(bench.trips()).toEqual(['watchdog']);
    for (let i = 0; i < 5; i++) bench.chip.powerCycle();
    askAgain(bench);
    expect(bench.trips()).toEqual([]);
  });

  test('a loop so fast that no tick comes drives nothing at all', () => {
    const bench = busy();
    for (let i = 0; i < 200; i++) {
      bench.chip.faults.restartUnexplained();
      for (let ms = 0; ms < 3; ms++) {
        bench.chip.run(0.001);
        expect(isOff(bench)).toBe(true);
      }
    }
  });
});

test('all self-tests together find nothing in ten seconds of a sound board', () => {
  const bench = createBench();
  for (let i = 0; i < 200; i++) {
    bench.want(BUSY);
    bench.chip.run(0.045);
    expect(bench.pins()).toEqual(PINS_BUSY);
  }
  expect(bench.trips()).toEqual([]);
  expect(bench.refusals()).toEqual([]);
});
