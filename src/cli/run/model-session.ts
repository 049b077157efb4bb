/**
 * The common part of sessions in a simulated world, whichever board is used: keys for the unit's
 * buttons and switches, what a person sees, and what the record says about the world.
 */
import type { Board } from '../../../hal/board.ts';
import type { BreakView } from '../../../sim/board/simulated-board.ts';
import type { Scenario } from '../../../sim/faults/scenario.ts';
import { amountAtMol, heatExchangeS } from '../../../sim/plant/air/gas-model.ts';
import type { Button } from '../../core/frame.ts';
import { KEYS_LINE, type KeyAction } from '../terminal/keys.ts';
import type { Pacer, Speed } from './pace.ts';
import type { Session } from './session.ts';
import type { ScenarioOptions } from './simulated-scenario.ts';

export interface ModelOptions extends ScenarioOptions {
  readonly speed?: Speed;
}

/** Such runs start at a simulated time, so that the same inputs give the same journal. */
export const SIMULATED_START = '2000-01-01T08:00:00.000Z';

/** What a person can reach and see at the bench. */
export interface Hands {
  readonly press: (button: Button) => void;
  readonly toggleEmergencyStop: () => void;
  readonly toggleShield: () => void;
  readonly view: () => BreakView;
}

/** Replaces the technician, who knows repairs only. */
export interface Crew {
  readonly who: string;
  readonly join: (hands: Hands) => Pick<Session, 'person' | 'reference'>;
}

export interface ModelBoard {
  readonly board: Board;
  readonly hands: Hands;
  readonly speed: Speed;
  readonly run: () => Pacer;
  /** What the record says about the board beyond its identity. */
  readonly extra: Readonly<Record<string, unknown>>;
}

export function modelSession(
  options: ModelOptions,
  scenario: Scenario,
  crew: Crew | null,
  { board, hands, speed, run, extra }: ModelBoard,
): Session {
  const { manual, seed } = options;
  return {
    board,
    title: `${titleOf(board.identity.kind, options, speed, crew)}${gasWords(scenario)}`,
    keysLine: manual ? KEYS_LINE : 'Ctrl-C ends the job safely',
    keyboard: manual ? process.stdin : null,
    atmospherePa: scenario.atmospherePa,
    seed,
    startedAt: SIMULATED_START,
    // Facts about the simulated world that the other inputs do not state.
    extra: {
      altitudeM: options.altitude,
      person: manual ? 'at the keyboard' : 'scripted',
      faults: scenario.faults,
      ...(options.plant === undefined ? {} : { world: scenario.world }),
      ...extra,
    },
    run,
    act: (key) => press(key, hands),
    // A person at the keyboard must know the state of the shield, because its key toggles it.
    look: () => `${lookAt(hands)}${manual ? shieldWords(hands) : ''}`,
    ...crew?.join(hands),
  };
}

/** Only when chosen: the gas law, and how fast real walls would take its heat. */
function gasWords({ world: { gas, air }, atmospherePa, airK }: Scenario): string {
  if (gas.exponent === 1) return '';
  const amountMol = amountAtMol(gas, atmospherePa, air.injectorM3, atmospherePa, airK);
  const exchangeS = heatExchangeS(amountMol, air.injectorWallM2);
  return `\nGas with exponent ${gas.exponent}; the walls would take its heat in about ${exchangeS.toFixed(1)} s`;
}

function press(key: KeyAction, hands: Hands): void {
  if (key.kind === 'button') hands.press(key.button);
  if (key.kind === 'emergency-stop') hands.toggleEmergencyStop();
  if (key.kind === 'shield') hands.toggleShield();
}

const shieldWords = (hands: Hands): string =>
  hands.view().shieldClosed ? '; shield closed' : '; shield OPEN';

function lookAt(hands: Hands): string {
  const { bubbling, clear, filledRatio, longestFrontRatio, tacky, resinLeft } = hands.view();
  const tip = `dark where air is left, longest gap to ${Math.round(longestFrontRatio * 100)} %`;
  const look = clear ? 'clear' : filledRatio > 0.02 ? tip : 'not filled';
  const face = tacky === null ? '' : tacky ? ', face tacky' : ', face hard';
  const more = `${bubbling ? ', bubbles rising' : ''}${resinLeft ? '' : ', no resin in injector'}${face}`;
  return `${Math.round(filledRatio * 100)} % filled, ${look}${more}`;
}

function titleOf(
  kind: string,
  { manual, seed, fault }: ModelOptions,
  speed: Speed,
  crew: Crew | null,
): string {
  const pace = speed === 'max' ? 'as fast as it can' : `${speed} x real time`;
  const who = manual ? 'you press the buttons' : (crew?.who ?? 'scripted technician');
  const wrong = fault.length === 0 ? '' : `, fault: ${fault.join(', ')}`;
  return `Meniscus, ${kind} (demo), ${who}, seed ${seed}, ${pace}${wrong}`;
}
