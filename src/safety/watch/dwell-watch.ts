/**
 * The seal while the pump holds a set-point: what leaks in is what the pump takes out again. The
 * balance is drawn up over blocks of a dwell, so that neither a converter step nor one burst of the
 * pump decides: what the pump's work moved, less what the reading moved, came through a leak. The
 * alarm table decides what is too much.
 *
 * A hole passes more gas the denser the gas before it. The result is therefore given for gas at the
 * air's pressure, as the test of the seal under vacuum finds it, and both have the same limit.
 */
import type { AirWatch } from './air-watch.ts';
import { type Chamber, leastStrengthRatio, pumpCurve } from './pump-model.ts';

export interface DwellWatch {
  /** Since the dwell began, or since the last block ended, s. */
  readonly sinceS: number;
  /** The dwell's first moments are over. */
  readonly settled: boolean;
  /** The reading, smoothed, Pa; null before the dwell. */
  readonly smoothPa: number | null;
  /** The same at the beginning of the block. */
  readonly fromPa: number;
  /** Pressure change that the pump alone would have caused since then, Pa; negative for suction. */
  readonly pumpedPa: number;
  /** Of the last whole block, Pa m3/s; null until there is one. */
  readonly leakPaM3PerS: number | null;
}

export const DWELL_WATCH_START: DwellWatch = {
  sinceS: 0,
  settled: false,
  smoothPa: null,
  fromPa: 0,
  pumpedPa: 0,
  leakPaM3PerS: null,
};

export interface DwellSeen {
  readonly pressurePa: number | null;
  readonly atmospherePa: number | null;
  /** The pump holds a set-point that was reached. */
  readonly dwelling: boolean;
}

/** The regulator and the gas that the pump has just warmed or cooled come to rest. */
const SETTLES_S = 5;
/** A single reading is one converter step off, which over a block is a quarter of a usual limit. */
const SMOOTHED_OVER_S = 1;
/** Many bursts of the pump, and little of a dwell. */
const BLOCK_S = 10;

export function stepDwellWatch(
  watch: DwellWatch,
  { dwelling, pressurePa, atmospherePa }: DwellSeen,
  air: AirWatch,
  chamber: Chamber,
  dtS: number,
): DwellWatch {
  if (!dwelling || pressurePa === null || atmospherePa === null) return rested(watch);
  const sinceS = watch.sinceS + dtS;
  const before = watch.smoothPa ?? pressurePa;
  const smoothPa = before + (pressurePa - before) * (1 - Math.exp(-dtS / SMOOTHED_OVER_S));
  if (!watch.settled) {
    const settled = sinceS >= SETTLES_S;
    const fromPa = smoothPa;
    return {
      sinceS: settled ? 0 : sinceS,
      settled,
      smoothPa,
      fromPa,
      pumpedPa: 0,
      leakPaM3PerS: null,
    };
  }
  const curve = pumpCurve(chamber, air.vacuum ? 'vacuum' : 'pressure', atmospherePa);
  const workS = leastStrengthRatio(air.strengthRatio) * air.speedRatio * dtS;
  const pumpedPa = watch.pumpedPa + ((curve.endPa - pressurePa) * workS) / curve.tauS;
  const { fromPa } = watch;
  if (sinceS < BLOCK_S) {
    return { sinceS, settled: true, smoothPa, fromPa, pumpedPa, leakPaM3PerS: watch.leakPaM3PerS };
  }
  const leakedPa = smoothPa - fromPa - pumpedPa;
  const flowPaM3PerS = (chamber.volumeM3 * leakedPa * (air.vacuum ? 1 : -1)) / sinceS;
  const leakPaM3PerS = (flowPaM3PerS * atmospherePa) / Math.max(atmospherePa, pressurePa);
  return { sinceS: 0, settled: true, smoothPa, fromPa: smoothPa, pumpedPa: 0, leakPaM3PerS };
}

const rested = (watch: DwellWatch): DwellWatch =>
  watch.sinceS === 0 && !watch.settled ? watch : DWELL_WATCH_START;
