/** Drives the controller with hand-made frames, one tick at a time. */

import { type ControllerStep, stepController } from '../src/control/controller.ts';
import type { Button, Frame, Request, Switches } from '../src/core/frame.ts';
import { CURE_PHASES, type PhaseId } from '../src/core/phases.ts';
import { REPAIR } from '../src/procedure/repair/repair.ts';
import type { Repair, RepairConfig } from '../src/procedure/repair/repair-state.ts';
import { DEFAULT_CONFIG } from './configs.ts';
import { HEALTHY_FRAME } from './frames.ts';

export const TICK_S = 0.05;

export interface FrameChange {
  /** The light sensor's counts while the lamp burns; dark while it does not. */
  readonly lit?: number;
  readonly counts?: Partial<Frame['counts']>;
  readonly switches?: Partial<Switches>;
  readonly pressed?: readonly Button[];
  readonly ladder?: Frame['ladder'];
  readonly link?: Frame['link'];
  readonly trips?: Frame['trips'];
  readonly gapS?: number;
}

export interface Driver {
  readonly tick: (change?: FrameChange, requests?: readonly Request[]) => ControllerStep<Repair>;
  /** Lets time pass; the counts jitter by one as a live converter's do. */
  readonly pass: (seconds: number, change?: FrameChange) => ControllerStep<Repair>;
  readonly press: (button: Button, change?: FrameChange) => ControllerStep<Repair>;
  readonly last: () => ControllerStep<Repair>;
}

/** The lamp warms its heat sink by 28 K in the end, and the glass by 3 K; s. */
const WARMS_S = 150;
const warmedBy = (warmth: number): Partial<Frame['counts']> => ({
  heatSinkTemperature: Math.round(512 - 260 * warmth),
  glassTemperature: Math.round(512 - 33 * warmth),
});

export function createDriver(config: RepairConfig = DEFAULT_CONFIG): Driver {
  let sequence = 0;
  let timeS = 0;
  let state = REPAIR.start(config);
  let last: ControllerStep<Repair> | null = null;
  let warmth = 0;
  const tick: Driver['tick'] = (change = {}, requests = []) => {
    const {
      pressure,
      irradiance: given,
      ...others
    } = { ...HEALTHY_FRAME.counts, ...warmedBy(warmth), ...change.counts };
    const burns = last?.outputs.lampEnabled === true;
    warmth += ((burns ? 1 : 0) - warmth) * -Math.expm1(-(change.gapS ?? TICK_S) / WARMS_S);
    const irradiance = change.lit !== undefined && burns ? change.lit : given;
    const jitter = (counts: number | null) => (counts === null ? null : counts + (sequence % 2));
    const frame: Frame = {
      ...HEALTHY_FRAME,
      sequence,
      timeS,
      sampledAtS: change.link === 'mute' ? (last?.snapshot.timeS ?? 0) : timeS,
      link: change.link ?? 'up',
      counts: { ...others, pressure: jitter(pressure), irradiance: jitter(irradiance) },
      // Lifted until a person closes it over the lamp.
      switches: {
        ...HEALTHY_FRAME.switches,
        shieldClosed: CURE_PHASES.has(state.procedure.phase),
        ...change.switches,
      },
      pressed: change.pressed ?? [],
      ladder: change.ladder ?? 'released',
      trips: change.trips ?? [],
    };
    const step = stepController(REPAIR, config, state, frame, requests);
    state = step.state;
    last = step;
    sequence += 1;
    timeS += change.gapS ?? TICK_S;
    return step;
  };
  const driver: Driver = {
    tick,
    pass: (seconds, change) => {
      let step = tick(change);
      for (let i = 1; i < Math.round(seconds / TICK_S); i++) step = tick(change);
      return step;
    },
    press: (button, change) => {
      // Long enough for the screen to count as read.
      driver.pass(1.6, change);
      return tick({ ...change, pressed: [button] });
    },
    last: () => last ?? tick(),
  };
  return driver;
}

/** Counts of an absolute pressure by the default transmitter. */
export const countsOf = (pa: number): number => Math.round(1023 * (0.1 + 0.8 * (pa / 400_000)));

/** Just past the set-point, so that the pump rests; the air's pressure where there is none. */
const heldPa = (setPointPa: number | null): number => {
  if (setPointPa === null) return 100_600;
  return setPointPa > 100_600 ? setPointPa + 600 : setPointPa - 900;
};

/** A shut-off chamber stays where it was, by the default profile. */
const SHUT_OFF_PA: Readonly<Partial<Record<PhaseId, number>>> = {
  'seal-watch': 60_000,
  'press-watch': 239_200,
};

/** Through self-test and hand work to the phase, pressing YES and giving each set-point its pressure. */
export function driveTo(driver: Driver, phase: PhaseId): ControllerStep<Repair> {
  let step = driver.pass(3);
  for (let tries = 0; tries < 200 && step.snapshot.phase !== phase; tries++) {
    const { setPointPa, phase: now } = step.snapshot;
    const pa = SHUT_OFF_PA[now] ?? heldPa(setPointPa);
    const change = { lit: 511, counts: { pressure: countsOf(pa) } };
    // Where nobody is asked the pressure must follow from the first tick.
    if (step.snapshot.batch === 'running' && !asks(step)) step = driver.tick(change);
    else step = driver.press(now === 'ask-bubbles' ? 'no' : 'yes', change);
    const waits = (): boolean => asks(step) || step.snapshot.batch === 'held';
    for (let i = 0; i < 8000 && step.snapshot.phase === now && !waits(); i++) {
      const nowPa = SHUT_OFF_PA[now] ?? heldPa(step.snapshot.setPointPa);
      step = driver.tick({ lit: 511, counts: { pressure: countsOf(nowPa) } });
    }
  }
  if (step.snapshot.phase !== phase) throw new Error(`stuck in ${step.snapshot.phase}`);
  return step;
}

const asks = ({ outputs }: ControllerStep<Repair>): boolean => outputs.status.colour === 'blue';
