/** The session of a run on the simulated board, in lock-step with its pace. */
import { createSimulatedBoard } from '../../../sim/board/simulated-board.ts';
import { problemLine } from '../../core/settings.ts';
import type { RepairConfig } from '../../procedure/repair/repair-state.ts';
import { type Crew, type ModelOptions, modelSession } from './model-session.ts';
import { createPacer } from './pace.ts';
import type { OpenedSession } from './session.ts';
import { scenarioOf } from './simulated-scenario.ts';

/** A whole demo repair takes about a minute at this speed. */
const DEMO_SPEED = 16;

export function simulatedSession(
  options: ModelOptions,
  config: RepairConfig,
  crew: Crew | null = null,
): OpenedSession {
  const checked = scenarioOf({ ...options, manual: options.manual || crew !== null }, config);
  if (!checked.ok) return { ok: false, lines: checked.problems.map(problemLine) };
  const board = createSimulatedBoard(checked.value);
  const speed = options.speed ?? (options.manual ? 1 : DEMO_SPEED);
  const session = modelSession(options, checked.value, crew, {
    board,
    hands: board,
    speed,
    run: () => createPacer(board.tick, board.identity.tickS, speed),
    extra: {},
  });
  return { ok: true, session };
}
