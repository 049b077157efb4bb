/**
 * A scripted person at the bench, with a repeatable seed: reads the display as a person would, takes
 * time, looks at the break, does the hand work and presses buttons. It knows step numbers and marks
 * on the display and nothing of the controller. What the hands change is in `hands.ts`.
 */
import type { Button, DisplayLines } from '../src/frame.ts';
import type { Chance } from './random.ts';

export type ScreenKind = 'step' | 'held' | 'help' | 'alarm' | 'end';

export interface Screen {
  readonly kind: ScreenKind;
  /** Step number, or the mark of a guided procedure's step; empty on alarm and end screens. */
  readonly step: string;
}

/** Reads the first line of the display; null when it is blank. */
export function readScreen([first]: DisplayLines): Screen | null {
  if (first.startsWith('! ')) return { kind: 'alarm', step: '' };
  if (first.startsWith('-- ')) return { kind: 'end', step: '' };
  const match = /^(\d\.\d{1,2}|[A-Z]\d{1,2}) (\|\| |!?\? )?/.exec(first);
  const step = match?.[1];
  if (step === undefined) return null;
  const kind = match?.[2] === '|| ' ? 'held' : match?.[2] !== undefined ? 'help' : 'step';
  return { kind, step };
}

/** What can be seen at the bench. */
export interface Sight {
  readonly bubbling: boolean;
  readonly clear: boolean;
  /** The uppermost resin, to a gloved finger; null while it is liquid. */
  readonly tacky: boolean | null;
}

interface Habit {
  /** Mean time that the work or the look takes, s. */
  readonly takesS: number;
  readonly press: (sight: Sight) => Button;
}

const yes = (): Button => 'yes';
const handWork = (takesS: number): Habit => ({ takesS, press: yes });

/** Steps in which a person does or answers something; in the others there is nothing to press. */
export const HABITS: Readonly<Record<string, Habit>> = {
  '1.2': handWork(4),
  '2.1': handWork(4),
  '3.1': handWork(8),
  '3.2': handWork(10),
  '3.3': handWork(15),
  '3.4': handWork(12),
  '3.5': handWork(8),
  '3.6': handWork(8),
  '3.7': handWork(8),
  '3.8': handWork(4),
  '4.3': handWork(12),
  '4.4': handWork(15),
  '4.6': handWork(12),
  '5.3': { takesS: 3, press: ({ bubbling }) => (bubbling ? 'yes' : 'no') },
  '5.8': { takesS: 5, press: ({ clear }) => (clear ? 'yes' : 'no') },
  '5.9': { takesS: 3, press: yes },
  '5.10': { takesS: 3, press: yes },
  '6.1': handWork(12),
  '6.2': handWork(8),
  '6.4': handWork(8),
  '6.5': handWork(12),
  '6.6': handWork(8),
  '6.7': handWork(8),
  '7.1': handWork(12),
  '7.2': handWork(12),
  '7.3': handWork(12),
  '7.4': { takesS: 5, press: ({ clear, tacky }) => (clear && tacky === false ? 'yes' : 'no') },
  '7.5': handWork(3),
};

const ALARM: Habit = { takesS: 2.5, press: yes };
const END: Habit = { takesS: 3, press: yes };
const HELP: Habit = { takesS: 4, press: yes };
const HELD: Habit = { takesS: 15, press: yes };
/** Held this often in one step, a person gives up. */
const PATIENCE = 3;
/** A person who sees nothing happen presses again after this time. */
const AGAIN_S = 20;

export interface Technician {
  /** Looks at the display once a tick; the button pressed, or null. */
  readonly look: (timeS: number, display: DisplayLines, sight: Sight) => Button | null;
}

export function createTechnician(chance: Chance): Technician {
  /** The display as it was looked at last; a board that shows the same hands out the same lines. */
  let read: DisplayLines | null = null;
  let screen: Screen | null = null;
  let seen = '';
  let dueS = Number.POSITIVE_INFINITY;
  const holds = new Map<string, number>();
  const delayS = (meanS: number): number => meanS * (0.6 + 0.8 * chance.uniform());
  return {
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
        dueS = habit === null ? Number.POSITIVE_INFINITY : timeS + delayS(habit.takesS);
        if (screen.kind === 'held') holds.set(screen.step, (holds.get(screen.step) ?? 0) + 1);
      }
      if (habit === null || timeS < dueS) return null;
      dueS = timeS + AGAIN_S;
      const givesUp = screen.kind === 'held' && (holds.get(screen.step) ?? 0) >= PATIENCE;
      return givesUp ? 'no' : habit.press(sight);
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
    case 'step':
      return HABITS[step] ?? null;
  }
}
