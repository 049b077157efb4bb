/**
 * Steps for the things that must stop the unit: the three switches and the lease. Each is triggered
 * on purpose and must be seen to act and to be cleared. A trip is cleared only once its switch is
 * back, so that a person sees it persist until then.
 */
import type { Outputs, Switches, Trip } from '../../src/core/frame.ts';
import {
  acting,
  elapsedS,
  from,
  passedWhen,
  QUIET,
  type Sample,
  type Step,
  thenLater,
  type Verdict,
  values,
} from './step.ts';
import { drawnFrom, PULL } from './steps-air.ts';

interface SwitchRow {
  readonly id: string;
  readonly title: string;
  readonly todo: string;
  readonly expected: string;
  readonly onFailure: string;
  readonly trip: Trip;
  /** Whether the trip occurs without any output that the switch forbids. */
  readonly tripsAtRest: boolean;
  readonly unsafe: (switches: Switches) => boolean;
}

const SWITCH_ROWS: readonly SwitchRow[] = [
  {
    id: 'emergency-stop',
    title: 'Emergency stop',
    todo: 'Press the emergency stop. Turn it to release it.',
    expected: 'pressed and tripped, then released and cleared.',
    onFailure:
      'Reads pressed all the time: second contact or its wire open. Never: wire shorted to ground.',
    trip: 'emergency-stop',
    tripsAtRest: true,
    unsafe: ({ emergencyStopPressed }) => emergencyStopPressed,
  },
  {
    id: 'shield',
    title: 'UV shield',
    todo: 'Open the shield. Close it.',
    expected: 'open, then closed.',
    onFailure:
      'Reads open all the time: the switch is not reached, or its wire is open. Never: it is shorted.',
    trip: 'shield',
    tripsAtRest: false,
    unsafe: ({ shieldClosed }) => !shieldClosed,
  },
  {
    id: 'over-pressure-switch',
    title: 'Over-pressure switch',
    todo: 'Unplug one wire of the over-pressure switch. Plug it in again.',
    expected: 'tripped while unplugged, then sound and cleared.',
    onFailure:
      'Nothing seen: the wire of D3 or the return is shorted to ground; do not go on to the pump.',
    trip: 'over-pressure-switch',
    tripsAtRest: true,
    unsafe: ({ overPressureTripped }) => overPressureTripped,
  },
];

const switchStep = (row: SwitchRow): Step => {
  const unsafe = ({ frame }: Sample) => row.unsafe(frame.switches);
  const tripped = ({ frame }: Sample) => frame.trips.includes(row.trip);
  const seen = (sample: Sample) => unsafe(sample) && (tripped(sample) || !row.tripsAtRest);
  const back = (sample: Sample) => !unsafe(sample);
  const clear = (sample: Sample) => back(sample) && !tripped(sample);
  return {
    id: row.id,
    title: row.title,
    caution: null,
    todo: row.todo,
    meanwhile: 'Nothing: pump off, vent open, lamp off. Clears the trip once the switch is back.',
    outputs: (samples) => ({ ...QUIET, clearTrips: thenLater(samples, unsafe, back) }),
    expected: row.expected,
    question: null,
    verdict: ({ samples }) => passedWhen(thenLater(samples, seen, clear)),
    ownTrips: [row.trip],
    timeoutS: 60,
    onFailure: row.onFailure,
  };
};

/** Longer than the lease of 0.5 s plus the vent's own time. */
const SILENCE_S = 1.5;
const HOLD_S = 1;
const RETURNED_SHARE = 0.8;

/** Pull, hold, then silence; safe at the end and where the pull does not succeed. */
function silenceOutputs(samples: readonly Sample[]): Outputs | null {
  const drawn = from(samples, drawnFrom(samples));
  if (drawn.length === 0) return elapsedS(samples) > PULL.longestS ? QUIET : PULL.outputs;
  if (elapsedS(drawn) < HOLD_S) return acting({ ventOpen: false });
  return elapsedS(drawn) < HOLD_S + SILENCE_S ? null : QUIET;
}

function silenceVerdict(samples: readonly Sample[]): Verdict {
  const startPa = values(samples, 'pressurePa')[0];
  const drawn = from(samples, drawnFrom(samples));
  if (startPa === undefined || drawn.length === 0) return 'waiting';
  const firstS = drawn[0]?.frame.timeS ?? 0;
  const held = drawn.filter(({ frame }) => frame.timeS - firstS <= HOLD_S);
  const heldPa = Math.max(...values(held, 'pressurePa'));
  if (startPa - heldPa < PULL.fallPa / 2) return 'failed';
  if (elapsedS(drawn) < HOLD_S) return 'waiting';
  const silent = drawn.filter(({ frame }) => frame.timeS - firstS <= HOLD_S + SILENCE_S);
  const lastPa = values(silent, 'pressurePa').at(-1) ?? heldPa;
  if (lastPa >= heldPa + RETURNED_SHARE * (startPa - heldPa)) return 'passed';
  return elapsedS(drawn) >= HOLD_S + SILENCE_S ? 'failed' : 'waiting';
}

export const hostSilence: Step = {
  id: 'host-silence',
  title: 'Silence makes the unit safe',
  caution: null,
  todo: 'Close the hose end with the blanking plug and wait.',
  meanwhile: `Draws a gentle vacuum, holds it for ${HOLD_S} s, then writes nothing for ${SILENCE_S} s.`,
  outputs: silenceOutputs,
  expected:
    'the vacuum holds while outputs are written, and is vented without a command in the silence.',
  question: null,
  verdict: ({ samples }) => silenceVerdict(samples),
  ownTrips: [],
  timeoutS: PULL.longestS + HOLD_S + SILENCE_S + 2,
  onFailure:
    'Vacuum held in the silence: the firmware does not end its lease; do not use the unit. Lost before: hose end or vent leaks.',
};

export const SWITCH_STEPS: readonly Step[] = SWITCH_ROWS.map(switchStep);
