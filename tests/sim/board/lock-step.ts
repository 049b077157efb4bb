/** Drives a simulated board by hand, without a controller: fixed outputs, hands, and time. */

import { createSimulatedBoard, type SimulatedBoard } from '../../../sim/board/simulated-board.ts';
import type { Scenario } from '../../../sim/faults/scenario.ts';
import type { DamageSizes } from '../../../sim/plant/break/breaks.ts';
import { worldOf } from '../../../sim/plant/world.ts';
import { statedLightOf } from '../../../src/cli/run/stated-light.ts';
import { boardLimitsOf } from '../../../src/control/board-limits.ts';
import type { Actuators, DisplayLines, Frame, Outputs } from '../../../src/core/frame.ts';
import { SAFE } from '../../../src/core/frame.ts';
import { type PhaseId, STEP_NUMBERS } from '../../../src/core/phases.ts';
import { DEFAULT_CONFIG } from '../../configs.ts';

export const STAR: DamageSizes = {
  type: 'star-break',
  diameterM: 0.022,
  pitM: 0.002,
  legs: 5,
  longestLegM: 0.01,
};
export const BULLSEYE: DamageSizes = {
  type: 'bullseye',
  diameterM: 0.02,
  pitM: 0.002,
  legs: 0,
  longestLegM: 0,
};

export function scenarioWith(changes: Partial<Scenario> = {}): Scenario {
  return {
    seed: 1,
    tickS: 0.05,
    atmospherePa: 100_600,
    airK: 295.15,
    glassK: 296.15,
    world: worldOf(STAR, 0.05),
    light: statedLightOf(DEFAULT_CONFIG),
    glassFloor: boardLimitsOf(DEFAULT_CONFIG.unit).glassFloor,
    faults: [],
    technician: 'person',
    ...changes,
  };
}

export const screen = (line: string): DisplayLines => [line, '', '', ''];

export const outputsOf = (outputs: Partial<Outputs>, line = ''): Outputs => ({
  ...SAFE,
  clearTrips: false,
  buzzer: 'off',
  status: { colour: 'off', flashing: false },
  display: screen(line),
  ...outputs,
});

export const EVACUATE: Partial<Actuators> = { pumpRatio: 0.5, ventOpen: false };
export const PRESSURISE: Partial<Actuators> = { ...EVACUATE, selector: 'pressure' };
export const HOLD: Partial<Actuators> = { ventOpen: false };
export const LIGHT: Partial<Actuators> = { lampEnabled: true, lampRatio: 1 };

/** Lets time pass under the same outputs, renewed at every frame; gives the frames. */
export function runFor(board: SimulatedBoard, seconds: number, outputs: Outputs): Frame[] {
  const frames: Frame[] = [];
  const subscription = board.frames$.subscribe((frame) => {
    frames.push(frame);
    board.write(outputs);
  });
  for (let t = 0; t < Math.round(seconds / board.identity.tickS); t++) board.tick();
  subscription.unsubscribe();
  return frames;
}

/** Shows each phase on the display and confirms it, so that the hands do its work. */
export function workThrough(board: SimulatedBoard, phases: readonly PhaseId[]): void {
  for (const phase of phases) {
    runFor(board, 0.1, outputsOf({}, `${STEP_NUMBERS[phase]} Demo`));
    board.press('yes');
  }
  runFor(board, 0.1, outputsOf({}));
}

export const UNTIL_CLOSED = ['close-seal', 'connect-hose', 'charge-injector'] as const;

/** A board whose chamber is sealed, charged and connected. */
export function closedBoard(changes: Partial<Scenario> = {}): SimulatedBoard {
  const board = createSimulatedBoard(scenarioWith(changes));
  workThrough(board, UNTIL_CLOSED);
  return board;
}
