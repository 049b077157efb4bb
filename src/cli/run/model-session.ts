/**
 * The common part of sessions in a simulated world, whichever board is used: keys for the unit's
 * buttons and switches, what a person sees, and what the record says about the world.
 */

import type { Board } from '../../../hal/board.ts';
import type { BreakView } from '../../../sim/board/simulated-board.ts';
import type { Scenario } from '../../../sim/faults/scenario.ts';
import { amountAtMol, heatExchangeS } from '../../../sim/plant/air/gas-model.ts';
import type { JobWords, PanelWords } from '../../app/prepare/terminal-words.ts';
import type { Button } from '../../core/frame.ts';
import { filled } from '../../core/phrases.ts';
import { kindNamed } from '../../document/certificate/certificate-words.ts';
import type { KeyAction } from '../terminal/keys.ts';
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
  readonly who: 'technician' | 'person';
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
    title: (words) =>
      [titleOf(board.identity.kind, options, speed, crew, words), ...gasLine(scenario, words)].join(
        '\n',
      ),
    keys: manual ? 'all' : 'none',
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
    look: ({ look }) => `${lookAt(hands, look)}${manual ? shieldText(hands, look) : ''}`,
    ...crew?.join(hands),
  };
}

/** Only when chosen: the gas law, and how fast real walls would take its heat. */
function gasLine(
  { world: { gas, air }, atmospherePa, airK }: Scenario,
  { terminal, tongue }: JobWords,
): readonly string[] {
  if (gas.exponent === 1) return [];
  const amountMol = amountAtMol(gas, atmospherePa, air.injectorM3, atmospherePa, airK);
  const exchangeS = heatExchangeS(amountMol, air.injectorWallM2);
  const figures = {
    exponent: tongue.figure(String(gas.exponent)),
    seconds: tongue.figure(exchangeS.toFixed(1)),
  };
  return [filled(terminal.panel.title.gas, figures)];
}

function press(key: KeyAction, hands: Hands): void {
  if (key.kind === 'button') hands.press(key.button);
  if (key.kind === 'emergency-stop') hands.toggleEmergencyStop();
  if (key.kind === 'shield') hands.toggleShield();
}

type LookWords = PanelWords['look'];

const shieldText = (hands: Hands, { shieldClosed, shieldOpen }: LookWords): string =>
  hands.view().shieldClosed ? shieldClosed : shieldOpen;

function lookAt(hands: Hands, words: LookWords): string {
  const { bubbling, clear, filledRatio, longestFrontRatio, tacky, resinLeft } = hands.view();
  const percent = (ratio: number): string => String(Math.round(ratio * 100));
  const tip = filled(words.air, { share: percent(longestFrontRatio) });
  const look = clear ? words.clear : filledRatio > 0.02 ? tip : words.empty;
  const face = tacky === null ? '' : tacky ? words.tacky : words.hard;
  const more = `${bubbling ? words.bubbles : ''}${resinLeft ? '' : words.dry}${face}`;
  return `${filled(words.filled, { share: percent(filledRatio), look })}${more}`;
}

function titleOf(
  kind: string,
  { manual, seed, fault }: ModelOptions,
  speed: Speed,
  crew: Crew | null,
  { terminal, certificate }: JobWords,
): string {
  const { title } = terminal.panel;
  return filled(title.model, {
    kind: kindNamed(certificate, kind),
    who: title[manual ? 'you' : (crew?.who ?? 'technician')],
    seed: String(seed),
    pace: speed === 'max' ? title.fast : filled(title.pace, { times: String(speed) }),
    faults: fault.length === 0 ? '' : filled(title.faults, { faults: fault.join(', ') }),
  });
}
