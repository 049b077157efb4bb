/** The simulated board's own behaviour, seen from outside through its frames and actuators. */
import { describe, expect, test } from 'vitest';
import type { Fault } from '../../../sim/faults/faults.ts';
import { SAFE } from '../../../src/core/frame.ts';
import { closedBoard, HOLD, LIGHT, outputsOf, PRESSURISE, runFor } from './lock-step.ts';

const CLEAR = outputsOf({ clearTrips: true });

describe('protection without a host', () => {
  test('the emergency stop cuts pump and lamp and opens the vent, until it is cleared', () => {
    const board = closedBoard();
    board.toggleEmergencyStop();
    const [, stopped] = runFor(board, 0.1, outputsOf(PRESSURISE));
    expect(stopped!.switches.emergencyStopPressed).toBe(true);
    expect(board.view().truth.acting).toEqual(SAFE);
    board.toggleEmergencyStop();
    const [, released] = runFor(board, 0.1, outputsOf(PRESSURISE));
    expect(released!.trips).toEqual(['emergency-stop']);
    expect(board.view().truth.acting).toEqual(SAFE);
    runFor(board, 0.05, CLEAR);
    const [cleared] = runFor(board, 0.1, outputsOf(PRESSURISE));
    expect(cleared!.trips).toEqual([]);
    expect(board.view().truth.acting.pumpRatio).toBe(0.5);
  });

  test('a trip is not cleared while its cause stands', () => {
    const board = closedBoard();
    board.toggleEmergencyStop();
    runFor(board, 1, CLEAR);
    expect(runFor(board, 0.05, CLEAR)[0]!.trips).toEqual(['emergency-stop']);
  });

  test('asking to clear goes unheard while the same picture drives anything', () => {
    const board = closedBoard();
    board.toggleEmergencyStop();
    runFor(board, 0.1, outputsOf({}));
    board.toggleEmergencyStop();
    runFor(board, 1, outputsOf({ ...PRESSURISE, clearTrips: true }));
    expect(board.view().truth.acting).toEqual(SAFE);
  });

  test('the lamp gives light only behind a closed shield, and not again before it is cleared', () => {
    const board = closedBoard();
    board.toggleShield();
    runFor(board, 1, outputsOf(LIGHT));
    expect(board.view().truth.irradianceWPerM2).toBeGreaterThan(150);
    board.toggleShield();
    runFor(board, 1, outputsOf(LIGHT));
    expect(board.view().truth.irradianceWPerM2).toBe(0);
    board.toggleShield();
    runFor(board, 1, outputsOf(LIGHT));
    expect(board.view().truth.irradianceWPerM2).toBe(0);
    runFor(board, 0.05, CLEAR);
    runFor(board, 1, outputsOf(LIGHT));
    expect(board.view().truth.irradianceWPerM2).toBeGreaterThan(150);
  });

  test('an open shield trips nothing while the lamp is off', () => {
    const frames = runFor(closedBoard(), 1, outputsOf({}));
    expect(frames.at(-1)!.switches.shieldClosed).toBe(false);
    expect(frames.at(-1)!.trips).toEqual([]);
  });

  test('a lamp whose driver is stuck on is put off by the shield', () => {
    const faults: Fault[] = [{ kind: 'lamp-stuck-on', from: { atS: 0 } }];
    const board = closedBoard({ faults });
    board.toggleShield();
    runFor(board, 1, outputsOf({}));
    expect(board.view().truth.irradianceWPerM2).toBeGreaterThan(150);
    board.toggleShield();
    runFor(board, 1, outputsOf({}));
    expect(board.view().truth.irradianceWPerM2).toBe(0);
  });

  test('the over-pressure switch stops a runaway pump and vents, below the pump’s dead head', () => {
    const faults: Fault[] = [{ kind: 'pump-stuck-on', from: { atS: 0 } }];
    const board = closedBoard({ faults });
    const gauges: number[] = [];
    let tripped = false;
    for (let t = 0; t < 400; t++) {
      const [frame] = runFor(board, 0.05, outputsOf({ ...HOLD, selector: 'pressure' }));
      tripped ||= frame!.switches.overPressureTripped;
      gauges.push(board.view().truth.pressurePa - 100_600);
    }
    expect(tripped).toBe(true);
    // 1.5 L/min into 30 mL raises at most 4.2 kPa in a tick before the switch is looked at again.
    expect(Math.max(...gauges)).toBeLessThan(205_000);
    expect(Math.max(...gauges)).toBeGreaterThan(195_000);
  });

  test('a vent that is jammed stays shut, whoever asks', () => {
    const faults: Fault[] = [{ kind: 'vent-stuck-closed', from: { atS: 5 } }];
    const board = closedBoard({ faults });
    runFor(board, 10, outputsOf(PRESSURISE));
    const before = board.view().truth.pressurePa;
    board.toggleEmergencyStop();
    runFor(board, 1, outputsOf(PRESSURISE));
    // The pump coasts for 80 ms at half speed and draws 1 mL of the 30 mL meanwhile.
    expect(board.view().truth.pressurePa).toBeGreaterThan(0.96 * before);
  });
});
