/**
 * What goes over the bus to the display, byte by byte: the waits of its controller's data sheet
 * (HD44780, initialisation by instruction; from memory), its register selected in time, and no more
 * bytes than drawing needs.
 */
import { expect, test } from 'vitest';
import { encodeText, UNIT_SYSEX } from '../../../hal/firmata/protocol.ts';
import { DISPLAY_ADDRESS, DISPLAY_BITS } from '../../../wiring/pin-map.ts';
import { createBench, sysex } from './bench.ts';

const ENABLE = 1 << DISPLAY_BITS.enable;
const REGISTER = 1 << DISPLAY_BITS.registerSelect;
const BACKLIGHT = 1 << DISPLAY_BITS.backlight;
const READ = 1 << DISPLAY_BITS.readWrite;
const SUPPLY_UP_S = 0.04;
/** A character with the place of it costs ten bytes, one more beside it five. */
const CHARACTER_BYTES = 5;

interface Sent {
  readonly atS: number;
  readonly byte: number;
}

function watched() {
  const sent: Sent[] = [];
  let answers = true;
  const device = {
    write: (byte: number) => {
      sent.push({ atS: bench.chip.timeS(), byte });
    },
  };
  const bus = new Map([[DISPLAY_ADDRESS, device]]);
  const bench = createBench({ i2c: bus, samplingMs: null, settleS: 0.0005 });
  const write = (row: number, text: string) =>
    bench.send(sysex([UNIT_SYSEX, ...encodeText(row, [...Buffer.from(text.padEnd(20))])]), 0);
  return {
    bench,
    sent,
    write,
    plug: (isIn: boolean) => {
      answers = isIn;
      if (answers) bus.set(DISPLAY_ADDRESS, device);
      else bus.delete(DISPLAY_ADDRESS);
    },
  };
}

/** Nibbles as the module takes them, when `enable` falls. */
function nibbles(sent: readonly Sent[]) {
  return sent.flatMap(({ atS, byte }, i) => {
    const before = sent[i - 1]?.byte ?? 0;
    if ((before & ENABLE) === 0 || (byte & ENABLE) !== 0) return [];
    return [{ atS, value: before >> 4, isData: (before & REGISTER) !== 0 }];
  });
}

test('set-up keeps to the order and the waits of the data sheet', () => {
  const { bench, sent, write } = watched();
  write(0, 'x');
  bench.chip.run(0.2);
  const taken = nibbles(sent);
  const order = [3, 3, 3, 2, 2, 8, 0, 12, 0, 1, 0, 6];
  expect(taken.slice(0, order.length).map(({ value }) => value)).toEqual(order);
  expect(taken.slice(0, order.length).some(({ isData }) => isData)).toBe(false);
  const waitS = (i: number) => taken[i + 1]!.atS - taken[i]!.atS;
  expect(taken[0]!.atS).toBeGreaterThan(SUPPLY_UP_S);
  expect(waitS(0)).toBeGreaterThan(0.0041);
  for (const i of [1, 2, 3]) expect(waitS(i)).toBeGreaterThan(0.0001);
  // Clear takes 1.52 ms.
  expect(waitS(9)).toBeGreaterThan(0.00152);
  // The whole of it is over before anybody misses it.
  expect(taken[order.length]!.atS - taken[0]!.atS).toBeLessThan(0.04);
});

test('the register stands before `enable` rises and both nibbles have it; nothing is read', () => {
  const { bench, sent, write } = watched();
  write(0, 'All of this text: 19');
  write(3, '~}|{zyxw ABC 0123456');
  bench.chip.run(0.3);
  expect(sent.every(({ byte }) => (byte & READ) === 0)).toBe(true);
  expect(sent.every(({ byte }) => (byte & BACKLIGHT) !== 0)).toBe(true);
  for (const [i, { byte }] of sent.entries()) {
    const before = sent[i - 1]?.byte ?? 0;
    const rises = (before & ENABLE) === 0 && (byte & ENABLE) !== 0;
    if (rises && i > 8) expect(before & REGISTER).toBe(byte & REGISTER);
  }
  // After set-up, 4 nibbles of 8 bits and 4 whole instructions, nibbles come in pairs.
  const pairs = nibbles(sent).slice(4);
  for (let i = 0; i < pairs.length; i += 2) expect(pairs[i]!.isData).toBe(pairs[i + 1]!.isData);
});

test('characters side by side are addressed once, and what stands is not drawn again', () => {
  const { bench, sent, write } = watched();
  write(1, 'a');
  bench.chip.run(0.2);
  sent.length = 0;
  write(1, 'bbbbbbbbbb');
  bench.chip.run(0.05);
  expect(sent.length).toBe(CHARACTER_BYTES * (1 + 10));
  sent.length = 0;
  write(1, 'bbbbbbbbbb');
  bench.chip.run(0.05);
  expect(sent.length).toBeLessThanOrEqual(1);
});

test('a row that is full to its end does not run on into the next', () => {
  const { bench, sent, write } = watched();
  for (const row of [0, 1, 2, 3]) write(row, 'a'.repeat(20));
  bench.chip.run(0.4);
  const bytes = nibbles(sent).slice(12);
  const places = bytes.filter(({ isData }, i) => i % 2 === 0 && !isData).length;
  expect(places).toBe(4);
});

test('an idle display is asked for a sign of life twice a second, with nothing but its light on', () => {
  const { bench, sent, write } = watched();
  write(0, 'idle');
  bench.chip.run(0.7);
  sent.length = 0;
  bench.chip.run(2);
  expect(sent.length).toBeGreaterThanOrEqual(3);
  expect(sent.length).toBeLessThanOrEqual(5);
  for (const { byte } of sent) expect(byte).toBe(BACKLIGHT);
});

test('a display that is not there is asked again twice a second, and set up when it is', () => {
  const { bench, sent, write, plug } = watched();
  plug(false);
  write(0, 'x');
  bench.chip.run(0.8);
  plug(true);
  const begunS = bench.chip.timeS();
  bench.chip.run(0.7);
  expect(sent.length).toBeGreaterThan(0);
  expect(sent[0]!.atS - begunS).toBeLessThan(0.55);
  expect(nibbles(sent)[0]!.value).toBe(3);
});
