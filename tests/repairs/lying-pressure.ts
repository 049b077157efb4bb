/** How a pressure sensor lies, and what is true in the chamber until the unit is at rest. */
import type { PhaseId } from '../../src/core/phases.ts';
import { TICK_S } from '../steered-unit.ts';
import {
  type Bench,
  COUNTS_PER_PA,
  countsOf,
  forked,
  type Sensor,
  stepBench,
} from './air-bench.ts';

export type Lie =
  | { readonly lie: 'stuck' | 'dither' }
  /** Resin in the port: a low-pass. */
  | { readonly lie: 'slow'; readonly tauS: number }
  | { readonly lie: 'drift'; readonly paPerS: number }
  | { readonly lie: 'jump'; readonly pa: number }
  /** Shows this share of what is over or under the air. */
  | { readonly lie: 'span'; readonly share: number };

export function sensorOf(lie: Lie, atmospherePa: number): Sensor {
  let held: number | null = null;
  const airCounts = countsOf(atmospherePa);
  return (counts, sinceS) => {
    held ??= counts;
    switch (lie.lie) {
      case 'stuck':
        return held;
      case 'dither':
        return held + (Math.round(20 * sinceS) % 2);
      case 'slow':
        held += (counts - held) * (1 - Math.exp(-TICK_S / lie.tauS));
        return held;
      case 'drift':
        return counts + lie.paPerS * sinceS * COUNTS_PER_PA;
      case 'jump':
        return counts + lie.pa * COUNTS_PER_PA;
      case 'span':
        return airCounts + (counts - airCounts) * lie.share;
    }
  };
}

export interface Truth {
  readonly alarms: readonly string[];
  /** From the first wrong count to the first alarm, s; null where there was none. */
  readonly foundAfterS: number | null;
  readonly foundIn: PhaseId | null;
  /** Highest over the air, and lowest absolute, from then on. */
  readonly highestGaugePa: number;
  readonly lowestPa: number;
}

/** From this moment on the sensor lies: the truth until 3 s after the first alarm, or for so long. */
export function truthUnder(lie: Lie, from: Bench, watchedForS: number): Truth {
  const { atmospherePa } = from.world;
  let now = forked(from, { sensor: sensorOf(lie, atmospherePa), lyingForS: 0 });
  const known = from.unit.log.length;
  let highestGaugePa = 0;
  let lowestPa = atmospherePa;
  let foundAfterS: number | null = null;
  let foundIn: PhaseId | null = null;
  while (now.lyingForS < (foundAfterS === null ? watchedForS : foundAfterS + 3)) {
    now = stepBench(now);
    highestGaugePa = Math.max(highestGaugePa, now.air.injectorPa - atmospherePa);
    lowestPa = Math.min(lowestPa, now.air.injectorPa);
    if (foundAfterS === null && now.unit.log.slice(known).some(({ kind }) => kind === 'alarm')) {
      foundAfterS = now.lyingForS;
      foundIn = now.unit.state.procedure.phase;
    }
  }
  const alarms = now.unit.log
    .slice(known)
    .flatMap((e) => (e.kind === 'alarm' && e.to === 'unacknowledged' ? [e.alarm] : []));
  return { alarms, foundAfterS, foundIn, highestGaugePa, lowestPa };
}
