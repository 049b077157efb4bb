/**
 * How long the program keeps interrupts off, counted on the emulated chip. The receiver holds two
 * bytes and a third in its shift register: at 250 kbaud a byte takes 40 us, so a longer time than
 * 80 us could lose one.
 */
import { expect, test } from 'vitest';
import { BUSY, createBench, outputsMessage } from './bench.ts';

const CYCLE_S = 1 / 16_000_000;
const SREG = 0x5f;
const INTERRUPTS_ON = 0x80;
/** Two bytes at 250 kbaud. */
const LATENCY_CYCLES = 1280;

test('no stretch without interrupts is longer than two bytes on the line', () => {
  const bench = createBench();
  bench.want(BUSY);
  const { chip } = bench;
  const endS = chip.timeS() + 0.1;
  let offSince: number | null = null;
  let longest = 0;
  let sentAtS = 0;
  while (chip.timeS() < endS) {
    if (chip.timeS() - sentAtS > 0.05) {
      chip.receive(outputsMessage(BUSY));
      sentAtS = chip.timeS();
    }
    chip.run(CYCLE_S);
    const off = (chip.peek(SREG) & INTERRUPTS_ON) === 0;
    if (!off) offSince = null;
    else {
      offSince ??= chip.cycles();
      longest = Math.max(longest, chip.cycles() - offSince);
    }
  }
  console.info(`longest stretch with interrupts off: ${longest} cycles`);
  expect(longest).toBeLessThan(LATENCY_CYCLES);
});
