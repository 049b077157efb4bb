import { expect, test } from 'vitest';
import { codes, probedChip, withBytes } from './chip-bench.ts';

const RESET_BY_POWER = 1;
const RESET_BY_WATCHDOG = 8;
const DISPLAY = 0x27;

test('a received byte waits unharmed while the control register is written', () => {
  const { chip, ask } = probedChip();
  const UCSR0B = 0xc1;
  // Interrupts off for 3 ms; the bytes behind the command arrive in the first of them.
  chip.receive([...withBytes('b', 3), ...codes('eA')]);
  chip.run(0.002);
  chip.poke(UCSR0B, chip.peek(UCSR0B));
  expect(ask('')).toEqual(codes('A'));
});

test('of four thousand bytes echoed without a pause none is lost', () => {
  const { ask } = probedChip();
  const letters = Array.from({ length: 4000 }, (_, i) => 65 + (i % 26));
  const echoed = ask(
    letters.flatMap((letter) => withBytes('e', letter)),
    1500,
  );
  expect(echoed).toEqual(letters);
});

test('a handler that returns with nothing to send does not end transmission', () => {
  const { ask } = probedChip();
  expect(ask('eA')).toEqual(codes('A'));
  expect(ask('eB')).toEqual(codes('B'));
});

test('clearing the flag of a finished transmission leaves the line able to send', () => {
  const { ask } = probedChip();
  expect(ask('x')).toEqual(codes('x'));
  expect(ask('eA')).toEqual(codes('A'));
});

test('a one written to the flag of a conversion clears it, and no stale interrupt comes', () => {
  const { ask } = probedChip();
  ask(withBytes('a', 0));
  const [interrupts = -1, control = -1] = ask('f');
  expect(interrupts).toBe(0);
  expect(control & 0x10).toBe(0);
});

test('every start after a stop is a first start, also with the prescaler set', () => {
  const { ask, devices } = probedChip();
  devices.set(DISPLAY, { write: () => {} });
  const START = 0x08;
  expect(ask(withBytes('w', DISPLAY, 1, 2))[0]).toBe(START);
  expect(ask(withBytes('w', DISPLAY, 1, 2))[0]).toBe(START);
});

test('a stop raises no flag', () => {
  const { ask, devices } = probedChip();
  devices.set(DISPLAY, { write: () => {} });
  const control = ask(withBytes('w', DISPLAY, 1, 2)).at(-1) ?? -1;
  expect(control & 0x80).toBe(0);
});

test('clearing one flag of a timer leaves its other flags', () => {
  const { ask } = probedChip();
  const MATCH_B = 0x04;
  expect(ask('g')).toEqual([MATCH_B]);
});

test('an interrupt that is pending behind sei ends the sleep instead of being slept through', () => {
  const { chip, ask } = probedChip();
  const edges: number[] = [];
  chip.onPinChange(12, (_, cycle) => edges.push(cycle));
  expect(ask('s')).toEqual([1]);
  const [up = 0, down = 0] = edges;
  // Only a few dozen instructions: nothing else was left that could have ended it.
  expect(down - up).toBeGreaterThan(0);
  expect(down - up).toBeLessThan(200);
});

test('the watchdog resets a hung program, which then starts as after any reset', () => {
  const { chip, ask } = probedChip();
  ask('h');
  expect(chip.level(12)).toBe(true);
  chip.hang();
  // It was fed at most a millisecond before, and has a time of 256 ms.
  chip.run(0.2549);
  expect(chip.resets()).toBe(0);
  expect(ask('', 2)).toEqual([RESET_BY_WATCHDOG]);
  expect(chip.level(12)).toBe(false);
  expect(ask('eA')).toEqual(codes('A'));
});

test('a conversion and a start that the reset cuts short do not block the next', () => {
  const { chip, ask, devices } = probedChip();
  devices.set(DISPLAY, { write: () => {} });
  chip.setVolts(0, 2.5);
  expect(ask('z', 100)).toEqual([RESET_BY_WATCHDOG]);
  expect(ask(withBytes('a', 0))).toEqual([0x00, 0x02]);
  expect(ask(withBytes('w', DISPLAY, 1, 2))).toHaveLength(5);
});

test('a reset lets go of the pins at once, so that whoever watches one hears it fall', () => {
  const { chip, ask } = probedChip();
  ask('h');
  const heard: boolean[] = [];
  chip.onPinChange(12, (high) => heard.push(high));
  chip.powerCycle();
  expect(heard).toEqual([false]);
});

test('the watchdog works again after a power cycle', () => {
  const { chip, ask } = probedChip();
  // Long enough for it to have looked at its time once.
  chip.run(0.6);
  chip.powerCycle();
  expect(ask('')).toEqual([RESET_BY_POWER]);
  chip.hang();
  chip.run(0.3);
  expect(chip.resets()).toBe(2);
});

test('a program that leaves the flag of the watchdog set cannot stop the watchdog', () => {
  const { chip, ask } = probedChip();
  ask('k', 300);
  expect(chip.resets()).toBe(1);
});

test('a program that clears the flag first can stop it', () => {
  const { chip, ask } = probedChip();
  ask('n', 300);
  expect(chip.resets()).toBe(0);
});

test('after its reset the watchdog runs on at its shortest time until the program sets it', () => {
  const { chip } = probedChip();
  chip.hang();
  // In steps too short for the program to come as far as its own watchdog settings.
  for (let i = 0; i < 300_000 && chip.resets() === 0; i++) chip.run(1e-6);
  chip.hang();
  chip.run(0.02);
  expect(chip.resets()).toBe(2);
});

test('the clock of a timer that was reset counts as one that was just made', () => {
  const { chip, ask } = probedChip();
  ask(withBytes('p', 128));
  const firstEdgeIn = (): number => {
    const startCycle = chip.cycles();
    let cycles = Number.POSITIVE_INFINITY;
    chip.onPinChange(9, (_, cycle) => {
      cycles = Math.min(cycles, cycle - startCycle);
    });
    chip.run(0.001);
    return cycles;
  };
  expect(firstEdgeIn()).toBeLessThan(2 * 255);
});
