/** The board's own protection, without any help of a host: how fast, how lasting, how cleared. */
import { describe, expect, test } from 'vitest';
import { COMPILED_LIMITS, OUTPUT_FLAGS, PRESSURE_LIVE } from '../../../hal/firmata/protocol.ts';
import {
  type Bench,
  BUSY,
  CLEAR,
  createBench,
  limitsMessage,
  outputsMessage,
  PINS_BUSY,
  PINS_SAFE,
  type Trip,
} from './bench.ts';

const { pressureCeiling, heatSinkFloor, glassFloor } = COMPILED_LIMITS;

const PRESSURE_SAFE = { pump: 0, ventOpen: true, pressureSide: true };
const LAMP_SAFE = { lamp: 0, lampEnabled: false };

interface Row {
  readonly trip: Trip;
  readonly cause: (bench: Bench) => void;
  /** Still not enough to clear it. */
  readonly almostGone: (bench: Bench) => void;
  readonly gone: (bench: Bench) => void;
  readonly safe: Partial<typeof PINS_SAFE>;
  readonly untouched: Partial<typeof PINS_BUSY>;
}

const pressureUntouched = { lamp: 200, lampEnabled: true };
const lampUntouched = { pump: 128, ventOpen: false, pressureSide: true };

const ROWS: readonly Row[] = [
  {
    trip: 'emergency-stop',
    cause: ({ setSwitch }) => setSwitch('emergencyStop', true),
    almostGone: () => {},
    gone: ({ setSwitch }) => setSwitch('emergencyStop', false),
    safe: PINS_SAFE,
    untouched: {},
  },
  {
    trip: 'over-pressure-switch',
    cause: ({ setSwitch }) => setSwitch('overPressureSwitch', true),
    almostGone: () => {},
    gone: ({ setSwitch }) => setSwitch('overPressureSwitch', false),
    safe: PRESSURE_SAFE,
    untouched: pressureUntouched,
  },
  {
    trip: 'pressure-ceiling',
    cause: ({ setCounts }) => setCounts('pressure', pressureCeiling + 1),
    almostGone: ({ setCounts }) => setCounts('pressure', pressureCeiling - 9),
    gone: ({ setCounts }) => setCounts('pressure', pressureCeiling - 10),
    safe: PRESSURE_SAFE,
    untouched: pressureUntouched,
  },
  {
    trip: 'pressure-sensor',
    cause: ({ setCounts }) => setCounts('pressure', PRESSURE_LIVE.lowest - 1),
    almostGone: () => {},
    gone: ({ setCounts }) => setCounts('pressure', PRESSURE_LIVE.lowest),
    safe: PRESSURE_SAFE,
    untouched: pressureUntouched,
  },
  {
    trip: 'shield',
    cause: ({ setSwitch }) => setSwitch('shieldSwitch', true),
    almostGone: () => {},
    gone: ({ setSwitch }) => setSwitch('shieldSwitch', false),
    safe: LAMP_SAFE,
    untouched: lampUntouched,
  },
  {
    trip: 'heat-sink',
    cause: ({ setCounts }) => setCounts('heatSinkTemperature', heatSinkFloor - 1),
    almostGone: ({ setCounts }) => setCounts('heatSinkTemperature', heatSinkFloor + 19),
    gone: ({ setCounts }) => setCounts('heatSinkTemperature', heatSinkFloor + 20),
    safe: LAMP_SAFE,
    untouched: lampUntouched,
  },
  {
    trip: 'glass-hot',
    cause: ({ setCounts }) => setCounts('glassTemperature', glassFloor - 1),
    almostGone: ({ setCounts }) => setCounts('glassTemperature', glassFloor + 19),
    gone: ({ setCounts }) => setCounts('glassTemperature', glassFloor + 20),
    safe: LAMP_SAFE,
    untouched: lampUntouched,
  },
];

const matches = (bench: Bench, wanted: object) =>
  Object.entries(wanted).every(([name, value]) => Reflect.get(bench.pins(), name) === value);

/** Phases of the 1 ms tick, in odd steps so that none repeats. */
const PHASES_S = Array.from({ length: 12 }, (_, i) => 0.02 + i * 0.000237);

describe.each(ROWS)('$trip', ({ trip, cause, almostGone, gone, safe, untouched }) => {
  test('acts within 5 ms of board time in any phase of the tick, and leaves the rest alone', () => {
    const timesS = PHASES_S.map((settleS) => {
      const bench = createBench({ settleS });
      bench.want(BUSY);
      expect(bench.pins()).toEqual(PINS_BUSY);
      cause(bench);
      const timeS = bench.timeUntil(() => matches(bench, safe));
      expect(bench.pins()).toMatchObject(untouched);
      return timeS;
    });
    const worstS = Math.max(...timesS);
    console.info(`${trip}: safe after at most ${(worstS * 1000).toFixed(2)} ms of board time`);
    expect(worstS).toBeLessThan(0.005);
  });

  test('stays when its cause is gone and outputs are wanted again', () => {
    const bench = createBench();
    bench.want(BUSY);
    cause(bench);
    expect(bench.trips()).toEqual([trip]);
    gone(bench);
    bench.chip.run(0.02);
    bench.want(BUSY);
    expect(bench.trips()).toEqual([trip]);
    expect(bench.pins()).toMatchObject(safe);
  });

  test('is cleared by the flag in a safe message with the cause gone, and not before', () => {
    const bench = createBench();
    bench.want(BUSY);
    cause(bench);
    bench.chip.run(0.01);
    almostGone(bench);
    bench.chip.run(0.01);
    bench.want(CLEAR);
    expect(bench.trips()).toEqual([trip]);
    gone(bench);
    bench.chip.run(0.01);
    bench.want({ ...BUSY, flags: BUSY.flags | OUTPUT_FLAGS.clearTrips });
    expect(bench.trips()).toEqual([trip]);
    bench.want(CLEAR);
    expect(bench.trips()).toEqual([]);
    expect(bench.pins()).toEqual(PINS_SAFE);
    bench.want(BUSY);
    expect(bench.pins()).toEqual(PINS_BUSY);
  });
});

test('a message that asks for one thing more than safe clears nothing', () => {
  const unsafe = [
    { ...CLEAR, pump: 1 },
    { ...CLEAR, lamp: 1 },
    { ...CLEAR, flags: OUTPUT_FLAGS.clearTrips },
    { ...CLEAR, flags: CLEAR.flags | OUTPUT_FLAGS.lampEnabled },
  ];
  const bench = createBench();
  bench.setSwitch('emergencyStop', true);
  bench.chip.run(0.01);
  bench.setSwitch('emergencyStop', false);
  bench.chip.run(0.01);
  for (const fields of unsafe) {
    bench.want(fields);
    expect(bench.trips()).toContain('emergency-stop');
  }
});

test('counts exactly at their limits trip nothing', () => {
  const bench = createBench();
  bench.setCounts('pressure', pressureCeiling);
  bench.setCounts('heatSinkTemperature', heatSinkFloor);
  bench.want(BUSY);
  expect(bench.trips()).toEqual([]);
  expect(bench.pins()).toEqual(PINS_BUSY);
});

test('a broken pressure wire at rest is no trip until pump or vent are asked for', () => {
  const bench = createBench();
  bench.setCounts('pressure', 0);
  expect(bench.trips()).toEqual([]);
  bench.want({ flags: 0, pump: 0, lamp: 0 });
  expect(bench.trips()).toEqual(['pressure-sensor']);
});

test('an open shield at rest is no trip; with the lamp asked for it is one', () => {
  const bench = createBench();
  bench.setSwitch('shieldSwitch', true);
  expect(bench.trips()).toEqual([]);
  bench.want(BUSY);
  expect(bench.pins()).toMatchObject(LAMP_SAFE);
  expect(bench.trips()).toEqual(['shield']);
});

test('with the shield open a wish for the lamp does not light it for a moment', () => {
  const bench = createBench();
  bench.setSwitch('shieldSwitch', true);
  bench.chip.run(0.01);
  bench.chip.receive(outputsMessage(BUSY));
  const lit = bench.timeUntil(() => bench.pins().lampEnabled || bench.pins().lamp > 0, 0.015);
  expect(lit).toBe(Number.POSITIVE_INFINITY);
  expect(bench.pins().pump).toBe(BUSY.pump);
});

test('the lamp goes off when its longest time is over and is free again at half of it', () => {
  const bench = createBench();
  bench.send(limitsMessage({ longestLampOnS: 1 }));
  const light = () => bench.want(BUSY);
  light();
  const begunS = bench.chip.timeS();
  while (bench.pins().lampEnabled && bench.chip.timeS() - begunS < 2) {
    light();
    bench.timeUntil(() => !bench.pins().lampEnabled, 0.2);
  }
  expect(bench.chip.timeS() - begunS).toBeCloseTo(1, 1);
  expect(bench.trips()).toEqual(['lamp-time']);
  bench.chip.run(0.4);
  bench.want(CLEAR);
  expect(bench.trips()).toEqual(['lamp-time']);
  bench.chip.run(0.1);
  bench.want(CLEAR);
  expect(bench.trips()).toEqual([]);
});
