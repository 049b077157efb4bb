/** Steps for what a person sees and hears of the panel: display, status lamp, buzzer. Harmless. */
import type { DisplayLines, Outputs, StatusColour } from '../../src/core/frame.ts';
import { byAnswer, elapsedS, QUIET, type Sample, type Step } from './step.ts';

const SEEN = { caution: null, verdict: byAnswer, ownTrips: [], timeoutS: 60 } as const;

/** Makes every column and every row distinguishable. */
export const TEST_PICTURE: DisplayLines = [
  '1 2345678901234567 1',
  '2 ABCDEFGHIJKLMNOP 2',
  '3 abcdefghijklmnop 3',
  '4 .:-=+*#%()<>/?!& 4',
];

const display: Step = {
  ...SEEN,
  id: 'display',
  title: 'Display',
  todo: 'Look at the display.',
  meanwhile: 'Shows a test picture.',
  outputs: () => ({ ...QUIET, display: TEST_PICTURE }),
  expected: `four full lines: ${TEST_PICTURE.map((line) => `"${line}"`).join(', ')}.`,
  question: 'Are all four lines there and complete?',
  onFailure:
    'Lit but empty: adjust the contrast. Blocks: address, or data and clock swapped. Dark: 5 V. Nothing at all: pull-ups.',
};

const COLOURS: readonly StatusColour[] = ['red', 'yellow', 'green', 'blue'];
const COLOUR_S = 1.5;

function colourNow(samples: readonly Sample[]): Outputs {
  const at = Math.floor(elapsedS(samples) / COLOUR_S) % COLOURS.length;
  return { ...QUIET, status: { colour: COLOURS[at] ?? 'off', flashing: false } };
}

const status: Step = {
  ...SEEN,
  id: 'status-lamp',
  title: 'Status lamp',
  todo: 'Look at the status lamp.',
  meanwhile: 'Shows red, yellow, green, blue, 1.5 s each, over and over.',
  outputs: colourNow,
  expected: 'red, yellow, green, blue, in this order.',
  question: 'Did you see red, yellow, green, blue in this order?',
  onFailure: 'Other order: D11, D12, D13 swapped. All wrong: a lamp with a common anode.',
};

const buzzer: Step = {
  ...SEEN,
  id: 'buzzer',
  title: 'Buzzer',
  todo: 'Listen.',
  meanwhile: 'Sounds the buzzer for a second.',
  outputs: (samples) => ({ ...QUIET, buzzer: elapsedS(samples) < 1 ? 'repeating' : 'off' }),
  expected: 'a sound, then none.',
  question: 'Did the buzzer sound, and stop again?',
  onFailure: 'Plus and minus swapped; wire of D5, Q6; a sounder without an oscillator of its own.',
};

export const SIGNAL_STEPS: readonly Step[] = [display, status, buzzer];
