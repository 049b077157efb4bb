/**
 * The simulated board: the rig behind the board contract, in lock-step. A tick emits the frame of
 * this moment, during which the controller writes its outputs, lets the person at the bench look at
 * the display, and only then lets time pass. Waiting is what makes simulated time advance.
 */
import { Subject } from 'rxjs';
import { type Board, BoardClosedError, type BoardIdentity } from '../hal/board.ts';
import { type Actuators, type Button, type Frame, type Outputs, SAFE } from '../src/frame.ts';
import { filledRatio } from './plant/plant.ts';
import { createRig, letPersonAct, letTimePass, pressButton, sightOf, takeFrame } from './rig.ts';
import type { Scenario } from './scenario.ts';

export interface BreakView {
  /** What somebody looking through the glass sees. */
  readonly bubbling: boolean;
  readonly filledRatio: number;
  readonly clear: boolean;
  /** What is really so, for checks. */
  readonly truth: {
    readonly pressurePa: number;
    readonly irradianceWPerM2: number;
    readonly doseJPerM2: number;
    readonly glassK: number;
    readonly heatSinkK: number;
    /** Outputs as they act, after the board's own protection and any fault. */
    readonly acting: Actuators;
  };
}

export interface SimulatedBoard extends Board {
  /** One tick of board time. */
  readonly tick: () => void;
  readonly press: (button: Button) => void;
  readonly toggleEmergencyStop: () => void;
  readonly toggleShield: () => void;
  readonly view: () => BreakView;
}

const LEASE_S = 0.5;

function createIdentity({ seed, tickS }: Scenario): BoardIdentity {
  return {
    kind: 'simulated board',
    serial: `sim-${seed}`,
    firmware: 'simulated',
    tickS,
    leaseS: LEASE_S,
    protection: ['lease', 'over-pressure', 'shield', 'emergency-stop'],
  };
}

export function createSimulatedBoard(scenario: Scenario): SimulatedBoard {
  const identity = createIdentity(scenario);
  const rig = createRig(scenario);
  const frames$ = new Subject<Frame>();
  let leasedUntilS = Number.NEGATIVE_INFINITY;
  let closed = false;
  const makeSafe = (): void => {
    rig.wanted = SAFE;
    rig.acting = SAFE;
    leasedUntilS = Number.NEGATIVE_INFINITY;
  };
  return {
    identity,
    frames$: frames$.asObservable(),
    write: (outputs) => {
      if (closed) throw new BoardClosedError();
      rig.display = outputs.display;
      if (!isSound(outputs)) return makeSafe();
      rig.wanted = outputs;
      leasedUntilS = rig.plant.timeS + LEASE_S;
    },
    makeSafe,
    close: async () => {
      if (closed) return;
      closed = true;
      makeSafe();
      frames$.complete();
    },
    tick: () => {
      if (closed) return;
      frames$.next(takeFrame(rig));
      letPersonAct(rig);
      letTimePass(rig, rig.plant.timeS < leasedUntilS ? rig.wanted : SAFE);
    },
    press: (button) => pressButton(rig, button),
    toggleEmergencyStop: () => {
      rig.emergencyStop = !rig.emergencyStop;
    },
    toggleShield: () => {
      rig.plant.bench.shieldClosed = !rig.plant.bench.shieldClosed;
    },
    view: () => ({
      ...sightOf(rig),
      filledRatio: filledRatio(rig.plant, rig.place),
      truth: { ...rig.plant.heat, pressurePa: rig.plant.chamberPa, acting: rig.acting },
    }),
  };
}

/** Both ratios inside 0 to 1; not a number is neither. */
function isSound({ pumpRatio, lampRatio }: Outputs): boolean {
  const isRatio = (value: number): boolean => value >= 0 && value <= 1;
  return isRatio(pumpRatio) && isRatio(lampRatio);
}
