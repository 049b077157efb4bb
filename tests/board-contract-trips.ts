/** Of the board contract: what trips a board, what a trip stops, and how it ends. */
import { expect, test } from 'vitest';
import type { Fault } from '../sim/faults/faults.ts';
import { type Actuators, type Outputs, SAFE } from '../src/core/frame.ts';
import { actuatorsOf, type OnBench } from './board-on-bench.ts';
import { GENTLE } from './board-outputs.ts';

const CLEAR: Outputs = { ...GENTLE, ...SAFE, clearTrips: true };

export function tripTests(onBench: OnBench): void {
  test('the emergency stop makes safe whatever is written, and is listed as tripped', async () => {
    const { board, advance, acting, emergencyStop, frames } = await onBench();
    board.write(GENTLE);
    await advance(2 * board.identity.tickS);
    await emergencyStop(true);
    await advance(board.identity.tickS);
    expect(await acting()).toEqual(SAFE);
    board.write(GENTLE);
    await advance(2 * board.identity.tickS);
    expect(await acting()).toEqual(SAFE);
    expect(frames.at(-1)!.trips).toEqual(['emergency-stop']);
  });

  test('a trip outlasts its cause until a write asks to clear it and nothing else', async () => {
    const { board, advance, acting, emergencyStop, frames } = await onBench();
    await emergencyStop(true);
    await advance(2 * board.identity.tickS);
    board.write(CLEAR);
    await advance(2 * board.identity.tickS);
    await emergencyStop(false);
    await advance(2 * board.identity.tickS);
    board.write({ ...GENTLE, clearTrips: true });
    await advance(2 * board.identity.tickS);
    expect(await acting()).toEqual(SAFE);
    expect(frames.at(-1)!.trips).toEqual(['emergency-stop']);
    board.write(CLEAR);
    await advance(2 * board.identity.tickS);
    expect(frames.at(-1)!.trips).toEqual([]);
    board.write(GENTLE);
    await advance(2 * board.identity.tickS);
    expect(await acting()).toEqual(actuatorsOf(GENTLE));
  });
}

/** The pump goes on beside the lamp. */
const LIT: Outputs = { ...GENTLE, lampEnabled: true, lampRatio: 1 };
const LAMP_OFF: Actuators = { ...actuatorsOf(LIT), lampEnabled: false, lampRatio: 0 };

/**
 * The glass channel 280 counts lower: glass of 23 C then reads 54 to 56 C, between the 50 C that the
 * unit's limit of 45 C leaves to the board and the 70 C that the board allows by itself.
 */
const hotGlass = (atS: number, lastsS: number): Fault => ({
  ...{ kind: 'sensor-offset', channel: 'glassTemperature', amount: -280 },
  ...{ from: { atS }, lastsS },
});

export function glassTests(onBench: OnBench): void {
  type Bench = Awaited<ReturnType<OnBench>>;
  /** Renews the outputs as a host does, every other tick. */
  const hold = async ({ board, advance }: Bench, outputs: Outputs, seconds: number) => {
    const { tickS } = board.identity;
    for (let n = 0; n < Math.round(seconds / (2 * tickS)); n++) {
      board.write(outputs);
      await advance(2 * tickS);
    }
  };
  const tripsOf = ({ frames }: Bench) => frames.at(-1)!.trips;

  test('glass too hot under the lamp puts the lamp off and nothing else, and is listed', async () => {
    const bench = await onBench({ faults: [hotGlass(2, 2)] });
    expect(bench.board.identity.protection).toContain('glass-hot');
    await bench.closeShield(true);
    await hold(bench, LIT, 1);
    expect([await bench.acting(), tripsOf(bench)]).toEqual([actuatorsOf(LIT), []]);
    await hold(bench, LIT, 1.6);
    expect([await bench.acting(), tripsOf(bench)]).toEqual([LAMP_OFF, ['glass-hot']]);
    // Not while it is hot, and after that only by a write that asks for it.
    await hold(bench, CLEAR, 0.4);
    expect(tripsOf(bench)).toEqual(['glass-hot']);
    await hold(bench, LIT, 1.6);
    expect([await bench.acting(), tripsOf(bench)]).toEqual([LAMP_OFF, ['glass-hot']]);
    await hold(bench, CLEAR, 0.2);
    await hold(bench, LIT, 0.4);
    expect([await bench.acting(), tripsOf(bench)]).toEqual([actuatorsOf(LIT), []]);
  });

  test('hot glass trips nothing while the lamp is off', async () => {
    const bench = await onBench({ faults: [hotGlass(0.5, 10)] });
    await hold(bench, GENTLE, 2);
    expect([await bench.acting(), tripsOf(bench)]).toEqual([actuatorsOf(GENTLE), []]);
  });

  test('after a restart nothing acts until it is cleared, and the unit’s limits hold again', async () => {
    const restart: Fault = { kind: 'board-restart', from: { atS: 2 }, lastsS: 0.04 };
    const bench = await onBench({ faults: [restart, hotGlass(8, 10)] });
    await bench.closeShield(true);
    await hold(bench, LIT, 5);
    expect([await bench.acting(), tripsOf(bench)]).toEqual([SAFE, ['watchdog']]);
    await hold(bench, CLEAR, 0.4);
    await hold(bench, LIT, 0.6);
    expect([await bench.acting(), tripsOf(bench)]).toEqual([actuatorsOf(LIT), []]);
    await hold(bench, LIT, 3);
    expect([await bench.acting(), tripsOf(bench)]).toEqual([LAMP_OFF, ['glass-hot']]);
  });
}
