/** A frame shows the latest scan: begun at most two ticks before the frame's time. */
import { expect, test } from 'vitest';
import { createBench } from './bench.ts';

const BEFORE = 200;
const AFTER = 700;

test('a scan shows what was on the pins while it ran, none older and none newer', () => {
  const bench = createBench();
  for (let i = 0; i < 30; i++) {
    bench.setCounts('pressure', BEFORE);
    bench.setCounts('supplyVoltage', BEFORE);
    // Steps of 0.37 ms against the 10 ms of the frames and the 1 ms of the tick.
    bench.chip.run(0.025 + i * 0.00037);
    bench.sent.length = 0;
    // The board counts from its start.
    const changedMs = bench.chip.timeS() * 1000 - bench.bootMs;
    bench.setCounts('pressure', AFTER);
    bench.setCounts('supplyVoltage', AFTER);
    bench.chip.run(0.025);
    for (const { timeMs, pressure, supplyVoltage } of bench.frames()) {
      if (timeMs - 3 >= changedMs) expect([pressure, supplyVoltage]).toEqual([AFTER, AFTER]);
      if (timeMs < changedMs) expect([pressure, supplyVoltage]).toEqual([BEFORE, BEFORE]);
      // Pressure is first in a scan: never new with the last still old.
      if (pressure === AFTER) expect(supplyVoltage).toBe(AFTER);
    }
  }
});

test.each([
  ['pressure', 'pressure'],
  ['irradiance', 'irradiance'],
  ['glassTemperature', 'glassTemperature'],
  ['heatSinkTemperature', 'heatSinkTemperature'],
  ['supplyVoltage', 'supplyVoltage'],
] as const)('%s of full scale shows whole', (name, field) => {
  const bench = createBench();
  bench.setCounts(name, 1023);
  bench.chip.run(0.02);
  expect(bench.lastFrame()[field]).toBe(1023);
});
