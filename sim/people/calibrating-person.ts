/**
 * A scripted person who calibrates: reads the display, does the hand work, reads the reference when
 * asked, remembers its value, and dials that number with two buttons. It knows the steps and the
 * format of a number on the display, and nothing of the unit's arithmetic.
 */
import type { Button, DisplayLines } from '../../src/core/frame.ts';
import type { StepId } from '../../src/core/guided-events.ts';
import type { Chance } from '../random.ts';
import { isPhase, readScreen, type SeenStep } from './screen-reading.ts';

type Doing = 'work' | 'read' | 'dial' | 'decide';

/** Steps by what a person does there; in all others there is nothing to press. */
export const GUIDED_HABITS: Readonly<Partial<Record<StepId, Doing>>> = {
  'gauge-join': 'work',
  'air-read': 'read',
  'air-enter': 'dial',
  'vacuum-read': 'read',
  'vacuum-enter': 'dial',
  'over-read': 'read',
  'over-enter': 'dial',
  'pressure-result': 'decide',
  'radiometer-place': 'work',
  'shield-close': 'work',
  'light-read': 'read',
  'light-enter': 'dial',
  'uv-result': 'decide',
  'ice-place': 'work',
  'bath-place': 'work',
  'bath-read': 'read',
  'bath-enter': 'dial',
  'temperature-result': 'decide',
  'stop-press': 'work',
  'stop-release': 'work',
  'switch-below': 'work',
  'switch-above': 'work',
  'switch-drain': 'work',
  'blank-fit': 'work',
  'health-result': 'decide',
};

const TAKES_S = { work: 15, read: 4, dial: 3, decide: 6, other: 3 } as const;
/** Interval of quick presses; a pause this long starts a new run. */
const QUICK_S = 0.25;
const PAUSE_S = 1;
/** A person who sees no effect presses again. */
const AGAIN_S = 20;
/** Held this often, a person gives up. */
const PATIENCE = 3;

export interface CalibratingPerson {
  /** Looks once a tick; `shown` is the reference's value in the unit of the display. */
  readonly look: (
    timeS: number,
    display: DisplayLines,
    shown: () => number | null,
  ) => Button | null;
}

interface Dialling {
  readonly last: number | null;
  readonly jump: number;
}

export function createCalibratingPerson(chance: Chance): CalibratingPerson {
  let seen = '';
  let dueS = Number.POSITIVE_INFINITY;
  let remembered: number | null = null;
  let dialling: Dialling = { last: null, jump: 0 };
  let held = 0;
  const later = (meanS: number): number => meanS * (0.6 + 0.8 * chance.uniform());

  const dial = (timeS: number, now: number | null): Button | null => {
    if (now === null || remembered === null) return null;
    const missing = remembered - now;
    if (Math.abs(missing) < SAME) return 'yes';
    const jump = dialling.last === null ? 0 : Math.abs(now - dialling.last);
    dialling = { last: now, jump };
    dueS = timeS + (jump * FASTER < Math.abs(missing) ? QUICK_S : PAUSE_S);
    return missing > 0 ? 'more' : 'no';
  };

  return {
    look: (timeS, display, shown) => {
      const screen = readScreen(display);
      if (screen === null) return null;
      const habit = screen.kind === 'step' ? habitIn(screen.step) : 'other';
      const key = `${screen.kind} ${screen.step}${screen.kind === 'alarm' ? display[0] : ''}`;
      if (key !== seen) {
        seen = key;
        dialling = { last: null, jump: 0 };
        dueS = habit === undefined ? Number.POSITIVE_INFINITY : timeS + later(TAKES_S[habit]);
        if (screen.kind === 'held') held += 1;
      }
      if (habit === undefined || timeS < dueS) return null;
      dueS = timeS + AGAIN_S;
      if (habit === 'dial') return dial(timeS, numberOn(display[1]));
      if (habit === 'read') remembered = shown();
      return screen.kind === 'held' && held >= PATIENCE ? 'no' : 'yes';
    },
  };
}

const habitIn = (step: SeenStep | null): Doing | undefined =>
  step === null || isPhase(step) ? undefined : GUIDED_HABITS[step];

/** Less than half of the last decimal that any of these displays shows. */
const SAME = 0.0051;
/** A press may count for ten times the previous one. */
const FASTER = 10;

function numberOn(line: string): number | null {
  const match = /^> (-?\d+\.\d+)/.exec(line);
  return match?.[1] === undefined ? null : Number(match[1]);
}
