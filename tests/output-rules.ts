/** What must hold of the outputs to every frame, whichever procedure runs and whatever a board says. */
import type { UnitSnapshot } from '../src/core/events.ts';
import { DISPLAY_COLUMNS, type Frame, isSafe, type Outputs, SAFE } from '../src/core/frame.ts';
import { CURE_PHASES, type PhaseId } from '../src/core/phases.ts';

export interface FrameAndOutputs {
  readonly frame: Pick<Frame, 'timeS' | 'link' | 'switches'>;
  readonly outputs: Outputs;
  readonly snapshot: UnitSnapshot;
  /** The phase of a repair whose interlocks hold. */
  readonly phase: PhaseId;
}

const isRatio = (value: number): boolean => value >= 0 && value <= 1;
const lampOn = ({ outputs }: FrameAndOutputs): boolean =>
  outputs.lampEnabled || outputs.lampRatio > 0;
const works = ({ outputs }: FrameAndOutputs): boolean => !isSafe(outputs);

/** All of them in the tick of the frame itself: a tick is 50 ms. */
const RULES: readonly (readonly [string, (seen: FrameAndOutputs) => boolean])[] = [
  [
    'a drive is no share of one',
    ({ outputs: o }) => !isRatio(o.pumpRatio) || !isRatio(o.lampRatio),
  ],
  ['works while it does not run', (seen) => works(seen) && seen.snapshot.batch !== 'running'],
  [
    'the selector is not at rest while it does not run',
    ({ outputs, snapshot }) => snapshot.batch !== 'running' && outputs.selector !== SAFE.selector,
  ],
  [
    'works with the emergency stop pressed',
    (seen) => works(seen) && seen.frame.switches.emergencyStopPressed,
  ],
  [
    'works with the over-pressure switch open',
    (seen) => works(seen) && seen.frame.switches.overPressureTripped,
  ],
  ['works while the board is mute', (seen) => works(seen) && seen.frame.link === 'mute'],
  ['lamp on with the shield open', (seen) => lampOn(seen) && !seen.frame.switches.shieldClosed],
  ['lamp on outside a cure', (seen) => lampOn(seen) && !CURE_PHASES.has(seen.phase)],
  ['lamp and pump on together', (seen) => lampOn(seen) && seen.outputs.pumpRatio > 0],
  [
    'lamp on without its two sensors',
    (seen) =>
      lampOn(seen) && (seen.snapshot.irradianceWPerM2 === null || seen.snapshot.heatSinkK === null),
  ],
  [
    'a closed chamber or a pump without a pressure',
    ({ outputs, snapshot }) =>
      snapshot.pressurePa === null && (outputs.pumpRatio > 0 || !outputs.ventOpen),
  ],
  ['asks to clear trips with outputs that work', (seen) => seen.outputs.clearTrips && works(seen)],
  [
    'a line of the display does not fit',
    ({ outputs }) => outputs.display.some((line) => line.length !== DISPLAY_COLUMNS),
  ],
];

/** Throws with the frame's time and the rule that is broken. */
export function checkOutputs(seen: FrameAndOutputs): void {
  const broken = RULES.filter(([, isBroken]) => isBroken(seen)).map(([words]) => words);
  if (broken.length === 0) return;
  const { frame, snapshot, phase } = seen;
  throw new Error(
    `at ${frame.timeS} s in ${phase} (${snapshot.batch}): ${broken.join(', ')}: ${JSON.stringify(seen.outputs)}`,
  );
}
