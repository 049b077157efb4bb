import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { createSimulatedBoard } from '../../../sim/board/simulated-board.ts';
import type { Fault } from '../../../sim/faults/faults.ts';
import { type Frame, type Outputs, SAFE } from '../../../src/core/frame.ts';
import type { PhaseId } from '../../../src/core/phases.ts';
import { boardContract } from '../../board-contract.ts';
import {
  closedBoard,
  EVACUATE,
  LIGHT,
  outputsOf,
  PRESSURISE,
  runFor,
  scenarioWith,
  workThrough,
} from './lock-step.ts';

boardContract('simulated board', ({ muteFromS, faults }) => {
  const mute: Fault[] = muteFromS === null ? [] : [{ kind: 'link-mute', from: { atS: muteFromS } }];
  const board = createSimulatedBoard(scenarioWith({ faults: [...faults, ...mute] }));
  const advance = (seconds: number): void => {
    for (let t = 0; t < Math.round(seconds / board.identity.tickS); t++) board.tick();
  };
  const emergencyStop = (pressed: boolean): void => {
    if (pressed !== stopPressed) board.toggleEmergencyStop();
    stopPressed = pressed;
  };
  let stopPressed = false;
  return {
    board,
    advance,
    shaft: { outputsNow: () => board.view().truth.acting },
    emergencyStop,
    closeShield: (closed) => {
      if (closed !== board.view().shieldClosed) board.toggleShield();
    },
  };
});

describe('lock-step', () => {
  test('makeSafe acts at once, before any time has passed', () => {
    const board = closedBoard();
    runFor(board, 0.1, outputsOf(EVACUATE));
    board.makeSafe();
    expect(board.view().truth.acting).toEqual(SAFE);
  });

  test('outputs written during a frame act in the same tick', () => {
    const board = closedBoard();
    const before = board.view().truth.pressurePa;
    runFor(board, 0.05, outputsOf(EVACUATE));
    expect(board.view().truth.acting).toMatchObject({ pumpRatio: 0.5, ventOpen: false });
    expect(board.view().truth.pressurePa).toBeLessThan(before);
  });

  test('a button is reported once, in the next frame, in the order of pressing', () => {
    const board = createSimulatedBoard(scenarioWith());
    board.press('more');
    board.press('no');
    const frames = runFor(board, 0.1, outputsOf({}));
    expect(frames.map(({ pressed }) => pressed)).toEqual([['more', 'no'], []]);
  });

  test('the scripted technician sees the display just written and presses for the next frame', () => {
    const board = createSimulatedBoard(scenarioWith({ technician: 'scripted' }));
    const frames = runFor(board, 15, outputsOf({}, '2.1 Job sheet'));
    const pressed = frames.filter((frame) => frame.pressed.length > 0);
    expect(pressed.map((frame) => frame.pressed)).toEqual([['yes']]);
    expect(pressed[0]!.timeS).toBeGreaterThan(1);
  });

  test('frames are a whole number of milliseconds apart, half an hour into a run', () => {
    const board = createSimulatedBoard(scenarioWith());
    const frames = runFor(board, 1800, outputsOf({}));
    expect(frames.at(-1)!.timeS).toBe(1799.95);
  });
});

/** A run under outputs that change as the numbers say. */
function framesUnder(seed: number, ratios: readonly number[]): Frame[] {
  const board = closedBoard({ seed, technician: 'scripted' });
  return ratios.flatMap((ratio, i) => {
    const outputs: Outputs = outputsOf(
      { pumpRatio: ratio, ventOpen: false, selector: i % 2 === 0 ? 'vacuum' : 'pressure' },
      '5.3 Bubbles',
    );
    return runFor(board, 1, outputs);
  });
}

describe('repeatability', () => {
  test('the same scenario and the same writes give the same frames, bit for bit', () => {
    fc.assert(
      fc.property(
        fc.integer(),
        fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 6 }),
        (seed, ratios) => {
          expect(framesUnder(seed, ratios)).toEqual(framesUnder(seed, ratios));
        },
      ),
      { numRuns: 20 },
    );
  });

  test('another seed gives other noise, and the same physics', () => {
    const [one, two] = [framesUnder(1, [0.4, 0.2]), framesUnder(2, [0.4, 0.2])];
    expect(one.map(({ counts }) => counts)).not.toEqual(two.map(({ counts }) => counts));
    expect(one.map(({ timeS }) => timeS)).toEqual(two.map(({ timeS }) => timeS));
  });
});

test('the lease ends to the millisecond, also between two frames', () => {
  const doseOfOneWrite = (tickS: number): number => {
    const board = createSimulatedBoard(scenarioWith({ tickS }));
    board.toggleShield();
    board.write(outputsOf(LIGHT));
    for (let t = 0; t < 2 / tickS; t++) board.tick();
    return board.view().truth.doseJPerM2;
  };
  expect(doseOfOneWrite(0.05)).toBeGreaterThan(80);
  // 10 ms of light would be 2 J/m².
  expect(doseOfOneWrite(0.03)).toBeCloseTo(doseOfOneWrite(0.05), 3);
});

describe('the link', () => {
  const muteFaults: readonly Fault[] = [{ kind: 'link-mute', from: { atS: 2 }, lastsS: 2 }];

  test('nothing goes over a mute link either way, so the lease ends and the board is safe', () => {
    const board = closedBoard({ faults: muteFaults });
    const frames = runFor(board, 2, outputsOf(EVACUATE));
    expect(frames.at(-1)!.link).toBe('mute');
    expect(board.view().truth.acting.pumpRatio).toBe(0.5);
    runFor(board, 1, outputsOf(EVACUATE));
    expect(board.view().truth.acting).toEqual(SAFE);
    runFor(board, 2, outputsOf(EVACUATE));
    expect(board.view().truth.acting.pumpRatio).toBe(0.5);
  });

  test('a button pressed while the link is mute is lost', () => {
    const board = closedBoard({ faults: muteFaults });
    runFor(board, 2, outputsOf({}));
    board.press('yes');
    const frames = runFor(board, 4, outputsOf({}));
    expect(frames.flatMap(({ pressed }) => pressed)).toEqual([]);
  });

  test('a frame that comes later than the lease finds the board safe', () => {
    const late: Fault = { kind: 'link-late', amount: 2, from: { atS: 2 }, lastsS: 0.04 };
    const board = closedBoard({ faults: [late] });
    const frames = runFor(board, 2, outputsOf(PRESSURISE));
    const gaps = frames.slice(1).map(({ timeS }, i) => timeS - frames[i]!.timeS);
    expect(Math.max(...gaps)).toBeCloseTo(2.05, 9);
    const other = closedBoard({ faults: [late] });
    const until = frames.findIndex((_, i) => (gaps[i] ?? 0) > 1);
    runFor(other, 0.05 * (until + 1), outputsOf(PRESSURISE));
    expect(other.view().truth.acting).toEqual(SAFE);
    expect(other.view().truth.pressurePa).toBeLessThan(101_000);
  });
});

describe('hands', () => {
  test('nothing fills before the seal is closed and resin is charged', () => {
    const board = createSimulatedBoard(scenarioWith());
    workThrough(board, ['close-seal', 'connect-hose']);
    runFor(board, 30, outputsOf(PRESSURISE));
    expect(board.view().filledRatio).toBe(0);
    workThrough(board, ['charge-injector']);
    runFor(board, 30, outputsOf(PRESSURISE));
    // The over-pressure switch has long vented the chamber: capillarity alone draws it in.
    expect(board.view().filledRatio).toBeGreaterThan(0.05);
  });

  test('a face cured under film is hard, one left open stays tacky', () => {
    const tackyAfter = (steps: readonly PhaseId[]) => {
      const board = closedBoard();
      workThrough(board, steps);
      expect(board.view().tacky).toBeNull();
      runFor(board, 300, outputsOf(LIGHT));
      return board.view().tacky;
    };
    expect(tackyAfter(['injector-off', 'fill-pit', 'cover-film', 'place-lamp'])).toBe(false);
    expect(tackyAfter(['injector-off', 'fill-pit', 'place-lamp'])).toBe(true);
  });

  test('the chamber is open to the air before the hose is on and after the injector is off', () => {
    const board = createSimulatedBoard(scenarioWith());
    workThrough(board, ['close-seal']);
    runFor(board, 5, outputsOf(EVACUATE));
    expect(board.view().truth.pressurePa).toBeGreaterThan(99_000);
    workThrough(board, ['connect-hose']);
    runFor(board, 5, outputsOf(EVACUATE));
    expect(board.view().truth.pressurePa).toBeLessThan(40_000);
    workThrough(board, ['injector-off']);
    runFor(board, 5, outputsOf(EVACUATE));
    expect(board.view().truth.pressurePa).toBeGreaterThan(99_000);
  });

  test('the shield is closed as the lamp is placed and opened for scraping', () => {
    const board = closedBoard();
    const closed = () => runFor(board, 0.05, outputsOf({}))[0]!.switches.shieldClosed;
    expect(closed()).toBe(false);
    workThrough(board, ['place-lamp']);
    expect(closed()).toBe(true);
    workThrough(board, ['scrape']);
    expect(closed()).toBe(false);
  });

  test('only YES does the work of a step, and only on the screen of that step itself', () => {
    const board = createSimulatedBoard(scenarioWith());
    const shieldAfter = (line: string, button: 'yes' | 'no' | 'more') => {
      runFor(board, 0.05, outputsOf({}, line));
      board.press(button);
      return runFor(board, 0.05, outputsOf({}, line))[0]!.switches.shieldClosed;
    };
    expect(shieldAfter('6.4 Lamp', 'no')).toBe(false);
    expect(shieldAfter('6.4 Lamp', 'more')).toBe(false);
    expect(shieldAfter('6.4 ? Lamp', 'yes')).toBe(false);
    expect(shieldAfter('6.4 || Lamp', 'yes')).toBe(false);
    expect(shieldAfter('6.4 Lamp', 'yes')).toBe(true);
  });

  test('YES on a held step does the remedy, also for a person at the keyboard', () => {
    const faults: Fault[] = [{ kind: 'hose-off', from: { atS: 1 }, mendedBy: 'connect-hose' }];
    const board = closedBoard({ faults });
    runFor(board, 5, outputsOf(EVACUATE, '5.1 Evacuate'));
    expect(board.view().truth.pressurePa).toBeGreaterThan(99_000);
    runFor(board, 0.1, outputsOf({}, '5.1 || Held'));
    board.press('yes');
    runFor(board, 5, outputsOf(EVACUATE, '5.1 Evacuate'));
    expect(board.view().truth.pressurePa).toBeLessThan(40_000);
  });
});
