/** Drives a guided procedure with hand-made frames, one tick at a time, without a plant. */

import { type ControllerStep, stepController } from '../../../src/control/controller.ts';
import type { Button, Frame, Request } from '../../../src/core/frame.ts';
import type { ProcedureName, StepId } from '../../../src/core/guided-events.ts';
import { CURE_PHASES } from '../../../src/core/phases.ts';
import { GUIDED } from '../../../src/procedure/guided/guided.ts';
import type { Guided, GuidedConfig } from '../../../src/procedure/guided/guided-state.ts';
import type { FrameChange } from '../../drive.ts';
import { HEALTHY_FRAME } from '../../frames.ts';
import { guidedConfig } from './guided-bench.ts';

const TICK_S = 0.05;

export interface GuidedDriver {
  readonly tick: (change?: FrameChange, requests?: readonly Request[]) => ControllerStep<Guided>;
  readonly pass: (seconds: number, change?: FrameChange) => ControllerStep<Guided>;
  readonly press: (button: Button, change?: FrameChange) => ControllerStep<Guided>;
}

/** Counts of an absolute pressure by the demo transmitter. */
export const countsOf = (pa: number): number => Math.round(1023 * (0.1 + 0.8 * (pa / 400_000)));

/** What the sensors of a sound unit would show under the outputs of the last tick. */
function followed(last: ControllerStep<Guided> | null): Partial<Frame['counts']> {
  const setPointPa = last?.snapshot.setPointPa ?? null;
  const closed = last !== null && !last.outputs.ventOpen;
  const heldPa = last?.snapshot.step.startsWith('over') ? 200_600 : 40_000;
  const pressurePa =
    setPointPa === null ? (closed ? heldPa : 100_600) : Math.max(8_000, setPointPa);
  return { pressure: countsOf(pressurePa), irradiance: last?.outputs.lampEnabled ? 511 : 102 };
}

export function createGuidedDriver(
  procedure: ProcedureName,
  changes: Partial<GuidedConfig> = {},
): GuidedDriver {
  const config = { ...guidedConfig(procedure), ...changes };
  let sequence = 0;
  let timeS = 0;
  let sampledAtS = 0;
  let state = GUIDED.start(config);
  let last: ControllerStep<Guided> | null = null;
  const tick: GuidedDriver['tick'] = (change = {}, requests = []) => {
    const counts = { ...HEALTHY_FRAME.counts, ...followed(last), ...change.counts };
    const jitter = (count: number | null) => (count === null ? null : count + (sequence % 2));
    if (change.link !== 'mute') sampledAtS = timeS;
    const frame: Frame = {
      ...HEALTHY_FRAME,
      sequence,
      timeS,
      sampledAtS,
      link: change.link ?? 'up',
      counts: {
        ...counts,
        pressure: jitter(counts.pressure),
        irradiance: jitter(counts.irradiance),
      },
      // Lifted until a person closes it over the lamp.
      switches: {
        ...HEALTHY_FRAME.switches,
        shieldClosed: CURE_PHASES.has(GUIDED.holdsAs(state.procedure)),
        ...change.switches,
      },
      pressed: change.pressed ?? [],
      trips: change.trips ?? [],
    };
    last = stepController(GUIDED, config, state, frame, requests);
    state = last.state;
    sequence += 1;
    timeS += change.gapS ?? TICK_S;
    return last;
  };
  const pass: GuidedDriver['pass'] = (seconds, change) => {
    let step = tick(change);
    for (let i = 1; i < Math.round(seconds / TICK_S); i++) step = tick(change);
    return step;
  };
  const press: GuidedDriver['press'] = (button, change) => {
    pass(0.5, change);
    return tick({ ...change, pressed: [button] });
  };
  return { tick, pass, press };
}

/** On to a step, pressing YES wherever somebody is asked. */
export function guideTo(driver: GuidedDriver, step: StepId): ControllerStep<Guided> {
  let now = driver.tick();
  for (let i = 0; i < 40_000 && now.snapshot.step !== step; i++) {
    now =
      now.outputs.status.colour === 'blue' && i % 12 === 11
        ? driver.tick({ pressed: ['yes'] })
        : driver.tick();
  }
  if (now.snapshot.step !== step) throw new Error(`stuck in ${now.snapshot.step}`);
  return now;
}
