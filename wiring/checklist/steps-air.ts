/**
 * Steps that move valves and pump, always gently: the pump runs at a third of its drive and never
 * presses into a closed chamber. A person hears the action of a valve or pump, or the pressure
 * shows it.
 */
import type { Outputs } from '../../src/core/frame.ts';
import {
  acting,
  byAnswer,
  elapsedS,
  from,
  passedWhen,
  QUIET,
  type Sample,
  type Step,
  type Verdict,
  values,
} from './step.ts';

/** A gentle pull: demo values. */
export const PULL = {
  fallPa: 20_000,
  longestS: 10,
  outputs: acting({ pumpRatio: 0.35, ventOpen: false }),
} as const;

/** Whether a sample is below the first by as much as the pull should reach. */
export function drawnFrom(samples: readonly Sample[]): (sample: Sample) => boolean {
  const startPa = values(samples, 'pressurePa')[0];
  return ({ pressurePa }) =>
    startPa !== undefined && pressurePa !== null && pressurePa <= startPa - PULL.fallPa;
}

/** Alternates on and off, a second each, twice; then rests. */
const clicking =
  (on: Outputs) =>
  (samples: readonly Sample[]): Outputs => {
    const second = Math.floor(elapsedS(samples));
    return second < 4 && second % 2 === 0 ? on : QUIET;
  };

const HEARD = { caution: null, verdict: byAnswer, ownTrips: [], timeoutS: 60 } as const;

const vent: Step = {
  ...HEARD,
  id: 'vent-clicks',
  title: 'Vent valve',
  todo: 'Listen to the vent valve, or lay a finger on it.',
  meanwhile: 'Closes and opens the vent twice, a second each. Pump and lamp stay off.',
  outputs: clicking(acting({ ventOpen: false })),
  expected: 'four clicks.',
  question: 'Did the vent valve click?',
  onFailure:
    'Emergency stop pressed? Fuse F3, wire of D6, Q2. Over-pressure switch open: the vent cannot close.',
};

const selector: Step = {
  ...HEARD,
  id: 'selector-clicks',
  title: 'Selector valve',
  todo: 'Listen to the selector valve, or lay a finger on it.',
  meanwhile: 'Switches the selector twice, a second each. Pump and lamp stay off, the vent open.',
  outputs: clicking(acting({ selector: 'pressure' })),
  expected: 'four clicks, and not from the vent valve.',
  question: 'Did the selector valve click?',
  onFailure: 'Fuse F3, wire of D7, Q3. The vent clicked instead: D6 and D7 are exchanged.',
};

const PUMP_TURNS_S = 2;

const pump: Step = {
  ...HEARD,
  id: 'pump-turns',
  title: 'Pump turns',
  todo: 'Listen to the pump.',
  meanwhile: `Runs the pump at 30 % for ${PUMP_TURNS_S} s with the vent open.`,
  outputs: (samples) => (elapsedS(samples) < PUMP_TURNS_S ? acting({ pumpRatio: 0.3 }) : QUIET),
  expected: 'a soft, even run, then rest.',
  question: 'Did the pump turn, and stop again?',
  onFailure:
    'Emergency stop pressed? Fuse F2, wire of D9, Q1, over-pressure switch. It hums and does not turn: drive too low for this pump.',
};

const vacuum: Step = {
  id: 'vacuum-draws',
  title: 'Vacuum draws down',
  caution: 'A gentle pull on the skin; take the thumb off if it hurts.',
  todo: 'Close the hose end with your thumb.',
  meanwhile: `Closes the vent and runs the pump at 35 %, until the pressure has fallen by 20 kPa, ${PULL.longestS} s at most.`,
  outputs: (samples) => {
    const done = samples.some(drawnFrom(samples)) || elapsedS(samples) > PULL.longestS;
    return done ? QUIET : PULL.outputs;
  },
  expected: 'the pressure falls by 20 kPa or more.',
  question: null,
  verdict: ({ samples }) => passedWhen(samples.some(drawnFrom(samples))),
  ownTrips: [],
  timeoutS: PULL.longestS + 2,
  onFailure:
    'Pressure rises: the selector is plumbed the wrong way round. Does not change: a hose is off, or the vent does not close.',
};

const LEAK = { watchS: 5, mostPa: 5_000 } as const;

function leakVerdict(samples: readonly Sample[]): Verdict {
  const drawn = from(samples, drawnFrom(samples));
  const heldPa = values(drawn, 'pressurePa');
  const first = heldPa[0];
  const last = heldPa.at(-1);
  if (first === undefined || last === undefined) return 'waiting';
  if (last - first > LEAK.mostPa) return 'failed';
  return passedWhen(elapsedS(drawn) >= LEAK.watchS);
}

const leak: Step = {
  id: 'leak-down',
  title: 'Vacuum holds',
  caution: null,
  todo: 'Close the hose end with the blanking plug and wait.',
  meanwhile: `Draws down as before, stops the pump and keeps the vent closed for ${LEAK.watchS} s.`,
  outputs: (samples) => {
    const drawn = from(samples, drawnFrom(samples));
    if (drawn.length === 0) return elapsedS(samples) > PULL.longestS ? QUIET : PULL.outputs;
    return elapsedS(drawn) < LEAK.watchS ? acting({ ventOpen: false }) : QUIET;
  },
  expected: `a rise of less than 5 kPa in ${LEAK.watchS} s.`,
  question: null,
  verdict: ({ samples }) => leakVerdict(samples),
  ownTrips: [],
  timeoutS: PULL.longestS + LEAK.watchS + 2,
  onFailure:
    'Close off one part after another, from the hose end towards the pump, to find the leak.',
};

export const AIR_STEPS: readonly Step[] = [vent, selector, pump, vacuum, leak];
