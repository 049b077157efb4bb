/**
 * Presses that a person did not mean, or meant for another screen: a YES before a step is read, and
 * the second half of a double press. No hand work goes with them. Whether the unit takes them is for
 * the unit to decide.
 */
import type { Button } from '../../src/core/frame.ts';
import type { Screen } from './screen-reading.ts';

interface Slip {
  readonly button: Button;
  readonly atS: number;
}

export interface Slips {
  /** A press that will come without a look. */
  readonly press: (button: Button, atS: number) => void;
  /** YES so long after another step came on the display; never where a person waits for the work. */
  readonly seeStep: (nowS: number, screen: Screen | null, yesAfterS: number | null) => void;
  /** What fingers press by now, each once. */
  readonly due: (nowS: number) => readonly Button[];
  readonly copy: () => Slips;
}

interface Slipping {
  readonly waiting: readonly Slip[];
  readonly seen: string;
}
const NOTHING: Slipping = { waiting: [], seen: '' };
const NONE: readonly Button[] = [];

export function createSlips(from: Slipping = NOTHING): Slips {
  let { waiting, seen } = from;
  const press: Slips['press'] = (button, atS) => {
    waiting = [...waiting, { button, atS }];
  };
  return {
    press,
    seeStep: (nowS, screen, yesAfterS) => {
      const step = screen?.kind === 'step' ? `${screen.step}` : '';
      if (step === seen) return;
      seen = step;
      if (step !== '' && yesAfterS !== null) press('yes', nowS + yesAfterS);
    },
    due: (nowS) => {
      if (waiting.length === 0) return NONE;
      const due = waiting.filter(({ atS }) => atS <= nowS);
      if (due.length > 0) waiting = waiting.filter(({ atS }) => atS > nowS);
      return due.map(({ button }) => button);
    },
    copy: () => createSlips({ waiting, seen }),
  };
}
