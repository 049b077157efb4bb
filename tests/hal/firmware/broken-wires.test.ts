/** Sensors whose wire is broken or short, and a converter that gives nothing. */
import { expect, test } from 'vitest';
import { OUTPUT_FLAGS } from '../../../hal/firmata/protocol.ts';
import {
  BUSY,
  CLEAR,
  createBench,
  PINS_BUSY,
  PINS_SAFE,
  SAFE_OUTPUTS,
  type Trip,
} from './bench.ts';

/** An open thermistor reads as the supply, colder than any heat sink. */
const OPEN_COUNTS = 1023;
const COLDEST_LIVE_COUNTS = 1008;
const HIGHEST_LIVE_PRESSURE_COUNTS = 972;
/** Converter control register, its enable bit included. */

test('an open heat-sink thermistor puts the lamp off and cannot be cleared', () => {
  const bench = createBench();
  bench.setCounts('heatSinkTemperature', COLDEST_LIVE_COUNTS);
  bench.want(BUSY);
  expect(bench.trips()).toEqual([]);
  bench.setCounts('heatSinkTemperature', COLDEST_LIVE_COUNTS + 1);
  expect(bench.trips()).toEqual(['heat-sink']);
  expect(bench.pins()).toEqual({ ...PINS_BUSY, lamp: 0, lampEnabled: false });
  bench.setCounts('heatSinkTemperature', OPEN_COUNTS);
  bench.want(CLEAR);
  expect(bench.trips()).toEqual(['heat-sink']);
  bench.setCounts('heatSinkTemperature', COLDEST_LIVE_COUNTS);
  bench.chip.run(0.01);
  bench.want(CLEAR);
  expect(bench.trips()).toEqual([]);
});

test('a heat sink that was too hot is not cleared by its thermistor breaking', () => {
  const bench = createBench();
  bench.setCounts('heatSinkTemperature', 50);
  bench.want(BUSY);
  expect(bench.trips()).toEqual(['heat-sink']);
  bench.setCounts('heatSinkTemperature', OPEN_COUNTS);
  bench.chip.run(0.01);
  bench.want(CLEAR);
  expect(bench.trips()).toEqual(['heat-sink']);
});

test('a pressure reading above what the sensor gives is a broken sensor too', () => {
  const bench = createBench();
  bench.setCounts('pressure', HIGHEST_LIVE_PRESSURE_COUNTS);
  bench.want(BUSY);
  expect(bench.trips()).toEqual(['pressure-ceiling']);
  bench.setCounts('pressure', HIGHEST_LIVE_PRESSURE_COUNTS + 1);
  expect(bench.trips()).toEqual(['pressure-ceiling', 'pressure-sensor']);
});

test.each([
  ['the pump alone', { ...SAFE_OUTPUTS, pump: 1 }],
  ['a closed vent alone', { ...SAFE_OUTPUTS, flags: 0 }],
  ['a vent closed on the pressure side', { ...SAFE_OUTPUTS, flags: OUTPUT_FLAGS.selectorPressure }],
])('a broken pressure wire matters for %s', (_, fields) => {
  const bench = createBench();
  bench.setCounts('pressure', 0);
  bench.want(SAFE_OUTPUTS);
  expect(bench.trips()).toEqual([]);
  bench.want(fields);
  expect(bench.trips()).toEqual(['pressure-sensor']);
});

test.each([
  ['enabled at no current', { flags: OUTPUT_FLAGS.ventOpen | OUTPUT_FLAGS.lampEnabled, lamp: 0 }],
  ['given a current but not enabled', { flags: OUTPUT_FLAGS.ventOpen, lamp: 200 }],
])('a broken thermistor is no trip for a lamp that is %s', (_, fields) => {
  const bench = createBench();
  bench.setCounts('heatSinkTemperature', OPEN_COUNTS);
  bench.setSwitch('shieldSwitch', true);
  bench.want({ ...SAFE_OUTPUTS, ...fields });
  expect(bench.trips()).toEqual([]);
});

test('a converter that gives nothing reads as broken wires: pressure and lamp are off', () => {
  const bench = createBench();
  bench.want(BUSY);
  expect(bench.pins()).toEqual(PINS_BUSY);
  bench.chip.faults.stallConverter(true);
  const all: Trip[] = ['pressure-sensor', 'heat-sink', 'glass-hot', 'converter'];
  expect(bench.trips()).toEqual(all);
  expect(bench.pins()).toEqual(PINS_SAFE);
  bench.want(CLEAR);
  expect(bench.trips()).toEqual(all);
});

test.each([
  [
    ['emergencyStop', 'overPressureSwitch'],
    ['emergency-stop', 'over-pressure-switch'],
  ],
  [
    ['emergencyStop', 'shieldSwitch'],
    ['emergency-stop', 'shield'],
  ],
  [
    ['overPressureSwitch', 'shieldSwitch'],
    ['over-pressure-switch', 'shield'],
  ],
] as const)('%s open together trip one each, and are cleared one by one', (names, trips) => {
  const bench = createBench();
  bench.want(BUSY);
  for (const name of names) bench.setSwitch(name, true);
  expect(bench.trips()).toEqual(trips);
  bench.want(CLEAR);
  expect(bench.trips()).toEqual(trips);
  bench.setSwitch(names[0], false);
  bench.chip.run(0.005);
  bench.want(CLEAR);
  expect(bench.trips()).toEqual([trips[1]]);
  bench.setSwitch(names[1], false);
  bench.chip.run(0.005);
  bench.want(CLEAR);
  expect(bench.trips()).toEqual([]);
});
