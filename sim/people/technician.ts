/**
 * A scripted person at the bench, with a repeatable seed: reads the display as a person would,
 * takes time, looks at the break, does the hand work and presses buttons. It knows the phases from
 * the display, and nothing of the controller. `hands.ts` defines the effect of the hands.
 */
import type { Button, DisplayLines } from '../../src/core/frame.ts';
import type { PhaseId } from '../../src/core/phases.ts';
import type { OwnChance } from '../random.ts';
import { isPhase, readScreen, type Screen, type SeenStep } from './screen-reading.ts';

/** What can be seen at the bench. */
export interface Sight {
  readonly bubbling: boolean;
  readonly clear: boolean;
  /** The feel of the uppermost resin to a gloved finger; null while it is liquid. */
  readonly tacky: boolean | null;
  /** The pit is filled up to the face of the glass, and nothing lies on it. */
  readonly level: boolean;
  /** Resin still stands in the injector. */
  readonly resinLeft: boolean;
}

interface Habit {
  /** Mean time for the work or the look, s. */
  readonly takesS: number;
  readonly press: (sight: Sight) => Button;
}

const yes = (): Button => 'yes';
const handWork = (takesS: number): Habit => ({ takesS, press: yes });

/** A step that proceeds by itself. */
const NOTHING = null;

/** What a person does or answers in each phase. */
export const HABITS: Readonly<Record<PhaseId, Habit | null>> = {
  'self-test': NOTHING,
  // The unit is where its air says.
  'air-jump': { takesS: 4, press: yes },
  'vacuum-note': handWork(4),
  'job-sheet': handWork(4),
  protect: handWork(8),
  inspect: handWork(10),
  // Waits until the pane has followed the room.
  'glass-gate': NOTHING,
  'end-stop': handWork(15),
  'clean-pit': handWork(15),
  'dry-pit': handWork(12),
  'set-bridge': handWork(8),
  'close-seal': handWork(8),
  'connect-hose': handWork(4),
  'seal-pull': NOTHING,
  'seal-watch': NOTHING,
  reseat: handWork(12),
  'dry-again': handWork(15),
  'long-pull': NOTHING,
  'test-again': handWork(12),
  'seal-open': NOTHING,
  'seal-press': NOTHING,
  'press-watch': NOTHING,
  'press-off': NOTHING,
  'foot-lifts': handWork(10),
  'move-injector': handWork(15),
  'charge-injector': handWork(8),
  evacuate: NOTHING,
  'vacuum-dwell': NOTHING,
  'ask-bubbles': { takesS: 3, press: ({ bubbling }) => (bubbling ? 'yes' : 'no') },
  'bubbles-stay': { takesS: 4, press: yes },
  release: NOTHING,
  pressurise: NOTHING,
  'pressure-dwell': NOTHING,
  vent: NOTHING,
  'ask-clear': { takesS: 5, press: ({ clear }) => (clear ? 'yes' : 'no') },
  'offer-remedy': { takesS: 4, press: yes },
  'try-remedy': handWork(15),
  'offer-cycle': { takesS: 3, press: yes },
  'ask-resin': { takesS: 3, press: ({ resinLeft }) => (resinLeft ? 'yes' : 'no') },
  recharge: handWork(12),
  // No scripted person sees a leg grow; who held the job for one goes on.
  'measure-leg': { takesS: 6, press: () => 'no' },
  'accept-mark': { takesS: 3, press: yes },
  'cycle-or-end': { takesS: 3, press: yes },
  'injector-off': handWork(8),
  'cover-fill': handWork(12),
  'place-lamp-fill': handWork(8),
  'cure-fill': NOTHING,
  'uncover-fill': handWork(8),
  'fill-pit': handWork(12),
  'cover-film': handWork(8),
  'place-lamp': handWork(8),
  cure: NOTHING,
  'move-lamp': handWork(8),
  scrape: { takesS: 12, press: ({ tacky }) => (tacky === false ? 'yes' : 'no') },
  polish: handWork(12),
  'clean-injector': handWork(12),
  'final-look': {
    takesS: 5,
    press: ({ clear, level, tacky }) => (clear && level && tacky === false ? 'yes' : 'no'),
  },
  result: handWork(3),
};

const ALARM: Habit = { takesS: 2.6, press: yes };
const END: Habit = { takesS: 3, press: yes };
const HELP: Habit = { takesS: 4, press: yes };
const HELD: Habit = { takesS: 15, press: yes };
/** Asked only after a person gave up. */
const END_ASKED: Habit = { takesS: 4, press: yes };
/** Nothing at the glass makes a scripted person press HOLD: what asks is a button that stays down. */
const WHY_ASKED: Habit = { takesS: 3, press: () => 'no' };
/** Held this often in one step, a person gives up. */
const PATIENCE = 3;
/** A person who was refused for a quarter of an hour also gives up. */
const MOST_TRIES = 45;
/** However quick the hands: the display has to be read first, and the unit takes no press before. */
const QUICKEST_S = 2;
/** A person who sees no effect presses again after this time. */
const AGAIN_S = 20;

export interface Technician {
  /** Looks at the display once a tick; the button pressed, or null. */
  readonly look: (timeS: number, display: DisplayLines, sight: Sight) => Button | null;
  /** A second person who has seen the same and will do the same. */
  readonly copy: () => Technician;
}

/** What a person has in mind. */
interface Mind {
  /** The display as last read; a board that shows the same returns the same lines. */
  readonly read: DisplayLines | null;
  readonly screen: Screen | null;
  readonly seen: string;
  readonly dueS: number;
  readonly tries: number;
  readonly holds: ReadonlyMap<SeenStep | null, number>;
}

const FRESH: Mind = {
  read: null,
  screen: null,
  seen: '',
  dueS: Number.POSITIVE_INFINITY,
  tries: 0,
  holds: new Map(),
};

/** `pace`: of the times that each step usually takes. */
export function createTechnician(chance: OwnChance, pace = 1, mind: Mind = FRESH): Technician {
  let { read, screen, seen, dueS, tries } = mind;
  const holds = new Map(mind.holds);
  const delayS = (meanS: number): number => {
    const usualS = meanS * (0.6 + 0.8 * chance.uniform());
    return Math.min(usualS, Math.max(pace * usualS, QUICKEST_S));
  };
  return {
    copy: () => createTechnician(chance.copy(), pace, { read, screen, seen, dueS, tries, holds }),
    look: (timeS, display, sight) => {
      if (display !== read) {
        read = display;
        screen = readScreen(display);
      }
      if (screen === null) return null;
      const key = `${screen.kind} ${screen.step}${screen.kind === 'alarm' ? display[0] : ''}`;
      const habit = habitOf(screen);
      if (key !== seen) {
        seen = key;
        tries = 0;
        if (screen.kind === 'held') holds.set(screen.step, (holds.get(screen.step) ?? 0) + 1);
        dueS = habit === null ? Number.POSITIVE_INFINITY : timeS + delayS(habit.takesS);
      }
      if (habit === null || timeS < dueS) return null;
      dueS = timeS + pace * AGAIN_S;
      tries += 1;
      const often = (holds.get(screen.step) ?? 0) >= PATIENCE || tries >= MOST_TRIES;
      return screen.kind === 'held' && often ? 'no' : habit.press(sight);
    },
  };
}

function habitOf({ kind, step }: Screen): Habit | null {
  switch (kind) {
    case 'alarm':
      return ALARM;
    case 'end':
      return END;
    case 'help':
      return HELP;
    case 'held':
      return HELD;
    case 'end-asked':
      return END_ASKED;
    case 'why-asked':
      return WHY_ASKED;
    case 'step':
      return step !== null && isPhase(step) ? HABITS[step] : null;
  }
}
