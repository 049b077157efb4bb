/**
 * What hands do at the bench when a step is confirmed: seal, hose, resin, pit, shield. They are the
 * same for the scripted technician and for a person at the keyboard, who can only press buttons.
 */
import { PHASE_IDS, type PhaseId } from '../../src/core/phases.ts';
import type { Setup } from '../plant/setup.ts';

export const HAND_WORK: Readonly<Partial<Record<PhaseId, Partial<Setup>>>> = {
  'close-seal': { sealed: true },
  'charge-injector': { charged: true, hoseOn: true },
  'connect-hose': { hoseOn: true },
  reseat: { sealed: true },
  'dry-again': { sealed: true },
  'test-again': { sealed: true },
  'foot-lifts': { sealed: true },
  // Emptied and wiped for the move.
  'move-injector': { charged: false },
  'injector-off': { injectorOff: true, sealed: false, hoseOn: false },
  'cover-fill': { filmOn: true },
  'place-lamp-fill': { shieldClosed: true },
  'uncover-fill': { shieldClosed: false, filmOn: false },
  'fill-pit': { pitFilled: true },
  'cover-film': { filmOn: true },
  'place-lamp': { shieldClosed: true },
  // Lifting it off the glass opens the shield.
  'move-lamp': { shieldClosed: false },
  scrape: { shieldClosed: false, filmOn: false },
};

/** What is done once more each time. */
const DONE_AGAIN: Readonly<
  Partial<Record<PhaseId, readonly ('recharges' | 'lifts' | 'injectorAt' | 'lampAt')[]>>
> = {
  recharge: ['recharges'],
  reseat: ['lifts'],
  'dry-again': ['lifts'],
  'test-again': ['lifts'],
  'foot-lifts': ['lifts'],
  // Fresh resin goes in at the next part.
  'move-injector': ['injectorAt', 'recharges'],
  'move-lamp': ['lampAt'],
};

/** As hands left the bench in an attempt that came as far as this phase and repeated nothing. */
export function layOutFor(setup: Setup, goesOnAt: PhaseId): void {
  for (const phase of PHASE_IDS.slice(0, PHASE_IDS.indexOf(goesOnAt))) {
    if (DONE_AGAIN[phase] === undefined) Object.assign(setup, HAND_WORK[phase]);
  }
}

/** A hall in which glass may be worked; demo. */
const HALL_K = 294;

/** What hands do while a step is shown and before anybody confirms it. */
export function workWhileShown(setup: Setup, phase: PhaseId): void {
  if (phase === 'glass-gate') setup.hallAirK = HALL_K;
}

/** Resin for the pit does not get under a film that still lies there. */
const isKeptOut = ({ filmOn }: Setup, phase: PhaseId): boolean => phase === 'fill-pit' && filmOn;

export function doHandWork(setup: Setup, phase: PhaseId): void {
  if (isKeptOut(setup, phase)) return;
  Object.assign(setup, HAND_WORK[phase]);
  for (const again of DONE_AGAIN[phase] ?? []) setup[again] += 1;
}
