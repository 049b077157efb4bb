/**
 * Proof of the two switches that no repair moves: the stop is pressed and released, and the
 * over-pressure switch is taken to either side of its opening point with a hand pump on its own
 * port. The unit looks at the contacts; pump and lamp are off and the vent is open all the while.
 *
 * The unit's own pump is not used: its pressure would have to pass the alarm's limit, and no check
 * is relaxed for a test. Only the contact of the stop that is read is seen here; the bring-up
 * checklist shows that the other one cuts the supply.
 */
import type { StepId } from '../../core/guided-events.ts';
import type { GuidedStep, Progress, StepContext } from './step.ts';
import { handWork, look } from './step-kinds.ts';

type Proof = Progress['interlocks'];
type Proved = keyof Proof;

const TRIP_OF = {
  emergencyStop: 'emergency-stop',
  overPressureSwitch: 'over-pressure-switch',
} as const;

const isOpen = (of: Proved, { switches }: StepContext): boolean =>
  of === 'emergencyStop' ? switches.emergencyStopPressed : switches.overPressureTripped;

interface Asked {
  readonly of: Proved;
  /** The first look at this switch. */
  readonly first?: true;
  /** How its contact must stand when a person presses YES. */
  readonly open: boolean;
}

/** The alarm of the switch is silent meanwhile; the guard is not. */
function proof(self: StepId, next: StepId, { of, first, open }: Asked): GuidedStep {
  return {
    ...handWork(self, next),
    // Here trips are cleared as soon as their cause is gone.
    alarmPhase: 'self-test',
    proving: TRIP_OF[of],
    done: ({ interlocks }, context) => {
      if (context.answer !== 'yes') return null;
      const asShown = isOpen(of, context) === open;
      const before = first === true || interlocks[of] === true;
      return { interlocks: { ...interlocks, [of]: before && asShown } };
    },
  };
}

export const SWITCH_PROOF_STEPS = {
  'stop-press': proof('stop-press', 'stop-release', {
    of: 'emergencyStop',
    first: true,
    open: true,
  }),
  'stop-release': proof('stop-release', 'switch-below', { of: 'emergencyStop', open: false }),
  'switch-below': proof('switch-below', 'switch-above', {
    of: 'overPressureSwitch',
    first: true,
    open: false,
  }),
  'switch-above': proof('switch-above', 'switch-drain', { of: 'overPressureSwitch', open: true }),
  'switch-drain': proof('switch-drain', 'switch-look', { of: 'overPressureSwitch', open: false }),
  'switch-look': look('switch-look', 'blank-fit'),
} as const satisfies Partial<Record<StepId, GuidedStep>>;
