import { describe, expect, test } from 'vitest';
import { codes, probedChip, withBytes } from './chip-bench.ts';

describe('time', () => {
  test('is counted in cycles of 16 MHz and does not drift over many short runs', () => {
    const { chip } = probedChip();
    const fromS = chip.timeS();
    for (let i = 0; i < 1000; i++) chip.run(0.001);
    expect(chip.timeS() - fromS).toBeCloseTo(1, 5);
    expect(chip.cycles()).toBe(Math.round(chip.timeS() * 16e6));
  });

  test('goes on over resets', () => {
    const { chip } = probedChip();
    chip.run(1);
    chip.powerCycle();
    expect(chip.timeS()).toBeGreaterThan(1);
  });

  test('a program asleep misses no tick of its timer', () => {
    const { chip, ask } = probedChip();
    chip.run(2);
    const [low = 0, high = 0] = ask('t', 5);
    expect(Math.abs(low + 256 * high - 2001)).toBeLessThanOrEqual(2);
  });

  test('a sleep mode that is not emulated is refused, not passed over', () => {
    const { chip } = probedChip();
    const SMCR = 0x53;
    chip.poke(SMCR, 0x05);
    chip.poke(SMCR, 0x04);
    expect(() => {
      chip.poke(SMCR, 0x05);
      for (let i = 0; i < 100; i++) {
        chip.run(0.0005);
        chip.poke(SMCR, 0x05);
      }
    }).toThrow('idle');
  });
});

describe('the line', () => {
  test('bytes arrive one after the other at the rate of the line', () => {
    const { chip, ask } = probedChip();
    chip.receive(codes('eAeBeC'));
    // Six bytes of ten bits take 1.04 ms, the last answer another byte.
    expect(ask('', 0.95)).toEqual(codes('AB'));
    expect(ask('', 1)).toEqual(codes('C'));
  });

  test('a receiver holds three bytes, and the next overruns the last of them', () => {
    const { ask } = probedChip();
    // Interrupts off for 2 ms, while eight bytes arrive: e, A and the last one are left.
    const OVERRUNS = 1;
    expect(ask([...withBytes('b', 2), ...codes('eAeBeCeo')])).toEqual([...codes('A'), OVERRUNS]);
  });

  test('bytes on their way when the board restarts arrive behind it', () => {
    const { chip, ask } = probedChip();
    chip.receive(codes('eA'));
    chip.powerCycle();
    expect(ask('', 20)).toContain(65);
  });
});

describe('the pins', () => {
  test('an input reads what the outside drives, else its pull-up', () => {
    const { chip, ask } = probedChip();
    const PIN = 2;
    const isHigh = () => ((ask('i')[0] ?? 0) & (1 << PIN)) !== 0;
    expect(isHigh()).toBe(true);
    chip.setLevel(PIN, false);
    expect(isHigh()).toBe(false);
    chip.setLevel(PIN, true);
    expect(isHigh()).toBe(true);
    chip.setLevel(PIN, false);
    chip.setLevel(PIN, null);
    expect(isHigh()).toBe(true);
  });

  test('an input without a pull-up that nobody drives reads low', () => {
    const { ask } = probedChip();
    expect((ask('i')[0] ?? 0) & (1 << 3)).toBe(0);
  });

  test('an input with a pull-up does not count as driven high', () => {
    expect(probedChip().chip.level(2)).toBe(false);
  });

  test('pins that are analogue only have no level', () => {
    expect(() => probedChip().chip.level(20)).toThrow(RangeError);
  });

  test.each([0, 1, 51, 128, 254, 255])(
    'the duty %i by registers is the high time on the pin',
    (duty) => {
      const { chip, ask } = probedChip();
      ask(withBytes('p', duty));
      let highCycles = 0;
      let sinceCycle = chip.cycles();
      let wasHigh = chip.level(9);
      chip.onPinChange(9, (high, cycle) => {
        if (!high) highCycles += cycle - sinceCycle;
        sinceCycle = cycle;
        wasHigh = high;
      });
      const from = chip.cycles();
      // A whole number of periods of 510 cycles.
      chip.run((510 * 200) / 16e6);
      if (wasHigh) highCycles += chip.cycles() - sinceCycle;
      expect(highCycles / (chip.cycles() - from)).toBeCloseTo(duty / 255, 3);
      expect(chip.duty(9)).toBeCloseTo(duty / 255, 9);
    },
  );

  test('a plain output has the duty of its level', () => {
    const { chip, ask } = probedChip();
    expect(chip.duty(12)).toBe(0);
    ask('h');
    expect(chip.duty(12)).toBe(1);
  });
});

describe('the converter', () => {
  test.each([
    [0, 0],
    [2.5, 512],
    [4.9976, 1023],
    [5, 1023],
  ])('reads %d V as %i counts', (volts, counts) => {
    const { chip, ask } = probedChip();
    chip.setVolts(1, volts);
    const [low = 0, high = 0] = ask(withBytes('a', 1));
    expect(low + 256 * high).toBe(counts);
  });

  test('channels that do not exist are refused', () => {
    expect(() => probedChip().chip.setVolts(8, 1)).toThrow(RangeError);
  });
});

describe('the two-wire bus', () => {
  test('a device gets its bytes and the stop, and nobody answers at another address', () => {
    const { ask, devices } = probedChip();
    const heard: (number | string)[] = [];
    devices.set(0x27, { write: (byte) => heard.push(byte), stop: () => heard.push('stop') });
    expect(ask(withBytes('w', 0x27, 0x11, 0x22))).toEqual([0x08, 0x18, 0x28, 0x28, 0x04]);
    expect(heard).toEqual([0x11, 0x22, 'stop']);
    const NO_ANSWER = 0x20;
    expect(ask(withBytes('w', 0x28, 1, 2))).toEqual([0x08, NO_ANSWER, 0x04]);
  });

  test('a byte takes nine bit times at 100 kHz', () => {
    const { chip, ask, devices } = probedChip();
    const atCycle: number[] = [];
    devices.set(0x27, { write: () => atCycle.push(chip.cycles()) });
    ask(withBytes('w', 0x27, 1, 2));
    const [first = 0, second = 0] = atCycle;
    expect(second - first).toBeGreaterThanOrEqual(9 * 160);
    expect(second - first).toBeLessThan(9 * 160 + 60);
  });
});

describe('memory', () => {
  test('what is poked can be peeked', () => {
    const { chip } = probedChip();
    chip.poke(0x400, 0x5c);
    expect(chip.peek(0x400)).toBe(0x5c);
  });

  test('survives a reset by the watchdog, and not a power cycle', () => {
    const { chip } = probedChip();
    chip.poke(0x700, 0x5c);
    chip.hang();
    chip.run(0.3);
    expect(chip.peek(0x700)).toBe(0x5c);
    chip.powerCycle();
    expect(chip.peek(0x700)).not.toBe(0x5c);
  });
});
