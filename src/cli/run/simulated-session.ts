/**
 * The session of a simulated run: the simulated board, its pace, and keys that stand for the unit's
 * buttons and switches.
 */

import { createSimulatedBoard, type SimulatedBoard } from '../../../sim/board/simulated-board.ts';
import type { Scenario } from '../../../sim/faults/scenario.ts';
import { amountAtMol, heatExchangeS } from '../../../sim/plant/air/gas-model.ts';
import { problemLine } from '../../core/settings.ts';
import type { RepairConfig } from '../../procedure/repair/repair-state.ts';
import { KEYS_LINE, type KeyAction } from '../terminal/keys.ts';
import { createPacer, type Speed } from './pace.ts';
import type { OpenedSession, Session } from './session.ts';
import { type ScenarioOptions, scenarioOf } from './simulated-scenario.ts';

export interface SimulatedOptions extends ScenarioOptions {
  readonly speed?: Speed;
}

/** A whole demo repair takes about a minute at this speed. */
const DEMO_SPEED = 16;
/** Simulated runs start at a simulated time, so that the same inputs give the same journal. */
export const SIMULATED_START = '2000-01-01T08:00:00.000Z';

/** Who works at the bench in place of the technician, who knows repairs only. */
export interface Crew {
  readonly who: string;
  readonly join: (board: SimulatedBoard) => Pick<Session, 'person' | 'reference'>;
}

export function simulatedSession(
  options: SimulatedOptions,
  config: RepairConfig,
  crew: Crew | null = null,
): OpenedSession {
  const checked = scenarioOf({ ...options, manual: options.manual || crew !== null }, config);
  if (!checked.ok) return { ok: false, lines: checked.problems.map(problemLine) };
  const { value: scenario } = checked;
  const { manual, seed } = options;
  const board = createSimulatedBoard(scenario);
  const speed = options.speed ?? (manual ? 1 : DEMO_SPEED);
  return {
    ok: true,
    session: {
      board,
      title: `${titleOf(options, speed, crew)}${gasWords(scenario)}`,
      keysLine: manual ? KEYS_LINE : 'Ctrl-C ends the job safely',
      keyboard: manual ? process.stdin : null,
      atmospherePa: scenario.atmospherePa,
      seed,
      startedAt: SIMULATED_START,
      // What of the simulated world the other inputs do not say.
      extra: {
        altitudeM: options.altitude,
        person: manual ? 'at the keyboard' : 'scripted',
        faults: scenario.faults,
        ...(options.plant === undefined ? {} : { world: scenario.world }),
      },
      run: () => createPacer(board.tick, board.identity.tickS, speed),
      act: (key, request) => {
        if (key.kind === 'hold') request({ kind: 'hold' });
        else press(key, board);
      },
      // Whoever presses the keys must know how the shield stands: its key turns it round.
      look: () => `${lookAt(board)}${manual ? shieldWords(board) : ''}`,
      ...crew?.join(board),
    },
  };
}

/** Only where somebody chose it: what the gas follows, and how fast walls would really take its heat. */
function gasWords({ world: { gas, air }, atmospherePa, airK }: Scenario): string {
  if (gas.exponent === 1) return '';
  const amountMol = amountAtMol(gas, atmospherePa, air.injectorM3, atmospherePa, airK);
  const exchangeS = heatExchangeS(amountMol, air.injectorWallM2);
  return `\nGas with exponent ${gas.exponent}; the walls would take its heat in about ${exchangeS.toFixed(1)} s`;
}

function press(key: KeyAction, board: SimulatedBoard): void {
  if (key.kind === 'button') board.press(key.button);
  if (key.kind === 'emergency-stop') board.toggleEmergencyStop();
  if (key.kind === 'shield') board.toggleShield();
}

const shieldWords = (board: SimulatedBoard): string =>
  board.view().shieldClosed ? '; shield closed' : '; shield OPEN';

function lookAt(board: SimulatedBoard): string {
  const { bubbling, clear, filledRatio, longestFrontRatio, tacky } = board.view();
  const tip = `dark where air is left, longest gap to ${Math.round(longestFrontRatio * 100)} %`;
  const look = clear ? 'clear' : filledRatio > 0.02 ? tip : 'not filled';
  const face = tacky === null ? '' : tacky ? ', face tacky' : ', face hard';
  return `${Math.round(filledRatio * 100)} % filled, ${look}${bubbling ? ', bubbles rising' : ''}${face}`;
}

function titleOf(
  { manual, seed, fault }: SimulatedOptions,
  speed: Speed,
  crew: Crew | null,
): string {
  const pace = speed === 'max' ? 'as fast as it can' : `${speed} x real time`;
  const who = manual ? 'you press the buttons' : (crew?.who ?? 'scripted technician');
  const wrong = fault.length === 0 ? '' : `, fault: ${fault.join(', ')}`;
  return `Meniscus on the simulated board (demo), ${who}, seed ${seed}, ${pace}${wrong}`;
}
