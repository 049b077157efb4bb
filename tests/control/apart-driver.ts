/** A job that cures fill and pit apart, on hand-made frames, with every event recorded. */

import type { ControllerStep } from '../../src/control/controller.ts';
import type { Event } from '../../src/core/events.ts';
import type { Measurement, Portion } from '../../src/core/measurements.ts';
import type { PhaseId } from '../../src/core/phases.ts';
import type { Repair, RepairConfig } from '../../src/procedure/repair/repair-state.ts';
import { DEFAULT_CONFIG } from '../configs.ts';
import { createDriver, type Driver, type FrameChange, TICK_S } from '../drive.ts';
import { FILL_PASSES, PIT_PASSES } from '../light-path.ts';

const { profile, job } = DEFAULT_CONFIG;
/**
 * Short doses: 200 W/m2 gives the fill its own in about 19 s, within the shortest piece of light, the
 * pit in about 11 s.
 */
export const APART: RepairConfig = {
  ...DEFAULT_CONFIG,
  profile: {
    ...profile,
    curing: 'apart',
    cure: { ...profile.cure, targetAtResinJPerM2: 3500 * FILL_PASSES, leastS: 10, longestS: 120 },
    pitCure: { targetAtResinJPerM2: 2000 * PIT_PASSES, leastS: 5, longestS: 60 },
  },
  job: {
    ...job,
    damage: { ...job.damage, depthM: 0.35e-3, pitDepthM: 0.5e-3 },
    pitResin: {
      name: 'demo pit resin',
      lot: 'demo-lot-2',
      curve: { criticalJPerM2: 500, penetrationM: 1e-3 },
    },
  },
};
export const TOGETHER: RepairConfig = {
  ...APART,
  profile: { ...APART.profile, curing: 'together', pitCure: null },
};

/** 200 W/m2 by the default sensor; the driver lets the count jitter by one. */
export const LIT: FrameChange = { lit: 511 };
export const TICK_J_PER_M2 = 201 * TICK_S;

/** Keeps every event of a driver. */
export function recorded(config: RepairConfig): {
  readonly driver: Driver;
  readonly events: Event[];
} {
  const events: Event[] = [];
  const inner = createDriver(config);
  const keep = (step: ControllerStep<Repair>): ControllerStep<Repair> => {
    events.push(...step.events);
    return step;
  };
  const driver: Driver = {
    ...inner,
    tick: (change, requests) => keep(inner.tick(change, requests)),
    pass: (seconds, change) => {
      let step = driver.tick(change);
      for (let i = 1; i < Math.round(seconds / TICK_S); i++) step = driver.tick(change);
      return step;
    },
    press: (button, change) => {
      driver.pass(1.6, change);
      return driver.tick({ ...change, pressed: [button] });
    },
  };
  return { driver, events };
}

export const stated = (
  events: readonly Event[],
  name: Measurement,
  portion: Portion | null = null,
): number =>
  events.flatMap((e) =>
    e.kind === 'measured' && e.name === name && e.portion === portion ? [e.value] : [],
  )[0] ?? Number.NaN;
export const phasesOf = (events: readonly Event[]): readonly PhaseId[] =>
  events.flatMap((e) => (e.kind === 'phase' ? [e.phase] : []));
export const dosesOf = ({ state }: ControllerStep<Repair>) => [
  state.scene.doses.fill.doseJPerM2,
  state.scene.doses.pit.doseJPerM2,
];
