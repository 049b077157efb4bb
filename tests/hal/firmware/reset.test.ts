/** The board's response to a failure of its own program or memory, and to a requested reset. */
import { expect, test } from 'vitest';
import { LIMITS_LAYOUT } from '../../../hal/firmata/protocol.ts';
import {
  BUSY,
  CLEAR,
  createBench,
  imageFacts,
  intervalMessage,
  limitsMessage,
  PINS_BUSY,
  PINS_SAFE,
} from './bench.ts';

const SYSTEM_RESET = 0xff;

test('a program that hangs is reset by the watchdog, and the board stays safe until cleared', () => {
  const bench = createBench();
  bench.want(BUSY);
  const resets = bench.chip.resets();
  bench.chip.hang();
  expect(bench.pins()).toEqual(PINS_BUSY);
  const timeS = bench.timeUntil(() => bench.pins().pump === 0, 0.4);
  console.info(`hung program: safe after ${(timeS * 1000).toFixed(0)} ms of board time`);
  expect(timeS).toBeLessThan(0.3);
  expect(bench.chip.resets()).toBe(resets + 1);
  bench.chip.run(0.08);
  bench.send(intervalMessage(10));
  bench.want(BUSY);
  expect(bench.trips()).toEqual(['watchdog']);
  expect(bench.pins()).toEqual(PINS_SAFE);
  bench.want(CLEAR);
  expect(bench.trips()).toEqual([]);
  bench.want(BUSY);
  expect(bench.pins()).toEqual(PINS_BUSY);
});

test('a board that runs well is not reset by its watchdog', () => {
  const bench = createBench();
  const resets = bench.chip.resets();
  bench.chip.run(3);
  expect(bench.chip.resets()).toBe(resets);
});

test('after power-up nothing has tripped', () => {
  const bench = createBench();
  expect(bench.trips()).toEqual([]);
});

/** Each limit, and whether they are a host's; then all of it inverted. */
const LIMIT_BYTES = LIMITS_LAYOUT.length * 2 + 1;
const CHECK_BYTES = LIMIT_BYTES;
test.each(Array.from({ length: LIMIT_BYTES + CHECK_BYTES }, (_, i) => i))(
  'byte %i of the kept limits flipped: everything safe within 12 ms, compiled limits back',
  (offset) => {
    const bench = createBench();
    bench.send(limitsMessage({ pressureCeiling: 400 }), 0.02);
    bench.want(BUSY);
    const address = imageFacts.dataAddresses.keptLimits + offset;
    bench.chip.poke(address, bench.chip.peek(address) ^ 0x10);
    const timeS = bench.timeUntil(() => bench.pins().pump === 0 && !bench.pins().lampEnabled);
    expect(timeS).toBeLessThan(0.012);
    // One pin is set after the other.
    bench.chip.run(0.0002);
    expect(bench.pins()).toEqual(PINS_SAFE);
    expect(bench.trips()).toContain('settings');
    bench.want(CLEAR);
    // No longer over the limit: the tightened ceiling is gone with the corruption.
    bench.setCounts('pressure', 450);
    expect(bench.trips()).toEqual([]);
  },
);

test('limits that are no longer sound are found within 12 ms in any tick between two checks', () => {
  for (let tick = 0; tick < 12; tick++) {
    const bench = createBench({ settleS: 0.02 + tick * 0.001 });
    bench.want(BUSY);
    const address = imageFacts.dataAddresses.keptLimits;
    bench.chip.poke(address, bench.chip.peek(address) ^ 0x10);
    expect(bench.timeUntil(() => bench.pins().pump === 0)).toBeLessThan(0.012);
  }
});

test('kept limits wiped to zeros are not sound: everything safe, compiled limits back', () => {
  const bench = createBench();
  bench.want(BUSY);
  for (let i = 0; i < LIMIT_BYTES + CHECK_BYTES; i++)
    bench.chip.poke(imageFacts.dataAddresses.keptLimits + i, 0);
  expect(bench.trips()).toContain('settings');
  expect(bench.pins()).toEqual(PINS_SAFE);
  bench.want(CLEAR);
  expect(bench.trips()).toEqual([]);
  bench.want(BUSY);
  expect(bench.trips()).toEqual([]);
  expect(bench.pins()).toEqual(PINS_BUSY);
});

test('SYSTEM_RESET makes safe at once, stops frames, keeps trips and limits', () => {
  const bench = createBench();
  bench.send(limitsMessage({ pressureCeiling: 400 }), 0.02);
  bench.want(BUSY);
  bench.setSwitch('shieldSwitch', true);
  expect(bench.trips()).toEqual(['shield']);
  bench.want({ ...BUSY, lamp: 0 });
  expect(bench.pins().pump).toBe(128);
  bench.chip.receive([SYSTEM_RESET]);
  expect(bench.timeUntil(() => bench.pins().pump === 0)).toBeLessThan(0.002);
  bench.chip.run(0.0002);
  expect(bench.pins()).toEqual(PINS_SAFE);
  bench.chip.run(0.05);
  bench.sent.length = 0;
  bench.chip.run(0.2);
  expect(bench.sent).toEqual([]);
  bench.setCounts('pressure', 401);
  bench.send(intervalMessage(10));
  expect(bench.trips()).toEqual(['pressure-ceiling', 'shield']);
});
