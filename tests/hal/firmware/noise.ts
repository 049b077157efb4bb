/**
 * A cause trips when two consecutive ticks see it; in one tick alone it is noise, however often it
 * recurs.
 */
import { expect } from 'vitest';
import { type Bench, BUSY, createBench, PINS_BUSY, type Trip } from './bench.ts';

interface Row {
  readonly trip: Trip;
  readonly noisy: (bench: Bench) => void;
  readonly quiet: (bench: Bench) => void;
}

const openSwitch = (
  trip: Trip,
  name: 'emergencyStop' | 'overPressureSwitch' | 'shieldSwitch',
): Row => ({
  trip,
  noisy: ({ setSwitch }) => setSwitch(name, true),
  quiet: ({ setSwitch }) => setSwitch(name, false),
});

/** Counts beyond a limit, and those that a bench starts with. */
const counts = (
  trip: Trip,
  name: 'pressure' | 'heatSinkTemperature' | 'glassTemperature',
  [beyond, within]: readonly [number, number],
): Row => ({
  trip,
  noisy: ({ setCounts }) => setCounts(name, beyond),
  quiet: ({ setCounts }) => setCounts(name, within),
});

export const ROWS: readonly Row[] = [
  openSwitch('emergency-stop', 'emergencyStop'),
  openSwitch('over-pressure-switch', 'overPressureSwitch'),
  openSwitch('shield', 'shieldSwitch'),
  counts('pressure-ceiling', 'pressure', [800, 300]),
  counts('pressure-sensor', 'pressure', [0, 300]),
  counts('heat-sink', 'heatSinkTemperature', [50, 500]),
  counts('glass-hot', 'glassTemperature', [150, 510]),
];

/** A tick is 1 ms: shorter meets one of them at most, longer than two meets two at least. */
const ONE_TICK_S = 0.0009;
const TWO_TICKS_S = 0.0021;
/** Phases of the tick; the other two are tried in the long test. */
export const PHASES_S = [0, 0.00046];
export const MORE_PHASES_S = [0.00023, 0.00071];

export function expectNoTripOfOneTick({ noisy, quiet }: Row, phaseS: number): void {
  const bench = createBench({ settleS: 0.02 + phaseS });
  bench.want(BUSY);
  for (let i = 0; i < 6; i++) {
    noisy(bench);
    bench.chip.run(ONE_TICK_S);
    quiet(bench);
    bench.chip.run(2 * 0.001 - ONE_TICK_S);
  }
  expect(bench.trips()).toEqual([]);
  expect(bench.pins()).toEqual(PINS_BUSY);
}

export function expectTripOfTwoTicks({ trip, noisy, quiet }: Row, phaseS: number): void {
  const bench = createBench({ settleS: 0.02 + phaseS });
  bench.want(BUSY);
  noisy(bench);
  bench.chip.run(TWO_TICKS_S);
  quiet(bench);
  expect(bench.trips()).toEqual([trip]);
}
