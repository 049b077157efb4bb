/**
 * The second opinion on the chamber's pressure: how far the pump must have moved it by the work
 * done since the chamber was last open to the air. The reading may fall behind that only as far as
 * a weak pump explains. A sensor that is stuck, slow or drifting falls behind by more, whatever it
 * reads, and so does a leak that the pump hides. The alarm table decides what is too far.
 *
 * Until this job has shown how strong the pump is, the weakest one accepted is assumed; from its
 * first pull on, a little less than it has shown. The leak that the seal test measured is taken
 * into account, because that gas was pumped and is gone again.
 */
import { type Actuators, SAFE } from '../../core/frame.ts';
import {
  type Chamber,
  leastStrengthRatio,
  pressureAfterPa,
  pumpCurve,
  WEAKEST_RATIO,
  workToS,
} from './pump-model.ts';

export interface AirWatch {
  /** Pump work since the chamber was open to the air, s; 0 while it is. */
  readonly workS: number;
  readonly speedRatio: number;
  readonly vacuum: boolean;
  /** The strongest that a pull of this job has shown the pump, as a share; null before the first. */
  readonly strengthRatio: number | null;
  /** Pressure that a pump of the least strength would have left, Pa. */
  readonly weakPa: number;
  /** How far that is ahead of the reading in the pump's direction, Pa; 0 while nothing is pumped. */
  readonly aheadPa: number;
}

export const AIR_WATCH_START: AirWatch = {
  workS: 0,
  speedRatio: 0,
  vacuum: SAFE.selector === 'vacuum',
  strengthRatio: null,
  weakPa: 0,
  aheadPa: 0,
};

export interface AirSeen {
  readonly pressurePa: number | null;
  readonly atmospherePa: number | null;
  /** Null while it is not valid. */
  readonly supplyV: number | null;
  /** Leak of the seal as a volume flow of air at its own pressure; 0 while it is not known. */
  readonly leakM3PerS: number;
}

/** No pump does more than its data sheet; the chamber's volume is known this well. */
const STRONGEST_RATIO = 1.2;
/** A pull that shows the strength: a shorter one shows the motor's start instead. */
const TELLING_PA = 30_000;
const FULL_DRIVE_RATIO = 0.99;
/** The vent empties a full chamber in under a second. */
const VENTED_S = 1;
/** No supply drives the pump harder than this, whatever its reading. */
const MOST_VOLTAGE_RATIO = 1.25;

export function stepAirWatch(
  watch: AirWatch,
  commanded: Actuators,
  ventOpenForS: number,
  seen: AirSeen,
  chamber: Chamber,
  dtS: number,
): AirWatch {
  const { atmospherePa, pressurePa, leakM3PerS } = seen;
  const { pumpRatio, selector } = commanded;
  const speedRatio = speedAfter(watch.speedRatio, pumpRatio, seen.supplyV, chamber, dtS);
  const vacuum = pumpRatio > 0 ? selector === 'vacuum' : watch.vacuum;
  const restarts = ventOpenForS >= VENTED_S || vacuum !== watch.vacuum || watch.workS === 0;
  if (atmospherePa === null || (restarts && pumpRatio === 0)) return rested(watch);
  const fromPa = restarts ? atmospherePa : watch.weakPa;
  const workS = (restarts ? 0 : watch.workS) + speedRatio * dtS;
  const curve = pumpCurve(chamber, vacuum ? 'vacuum' : 'pressure', atmospherePa);
  const shownRatio =
    pressurePa !== null && vacuum && pumpRatio >= FULL_DRIVE_RATIO && !restarts
      ? strengthShown(
          workToS(curve, atmospherePa, pressurePa),
          watch.workS,
          pressurePa - atmospherePa,
        )
      : null;
  const strengthRatio = stronger(watch.strengthRatio, shownRatio);
  const leastRatio = leastStrengthRatio(strengthRatio);
  const leakPa = ((leakM3PerS * dtS) / chamber.volumeM3) * (atmospherePa - fromPa);
  const movedPa =
    (curve.endPa - fromPa) * (1 - Math.exp((-leastRatio * speedRatio * dtS) / curve.tauS));
  const weakPa =
    strengthRatio === watch.strengthRatio
      ? fromPa + movedPa + leakPa
      : pressureAfterPa(curve, atmospherePa, leastRatio * workS);
  // The median of three samples is a tick late, and so is the reading.
  const aheadPa = pressurePa === null ? watch.aheadPa : (pressurePa - fromPa) * (vacuum ? 1 : -1);
  return { workS, speedRatio, vacuum, strengthRatio, weakPa, aheadPa };
}

const rested = (watch: AirWatch): AirWatch =>
  watch.workS === 0 && watch.speedRatio === 0 && watch.aheadPa === 0
    ? watch
    : { ...AIR_WATCH_START, vacuum: watch.vacuum, strengthRatio: watch.strengthRatio };

/** The motor follows its drive and its supply with a lag; the exact solution of first order. */
function speedAfter(
  speedRatio: number,
  pumpRatio: number,
  supplyV: number | null,
  { pump: { ratedV, startLagS } }: Chamber,
  dtS: number,
): number {
  const voltageRatio = Math.min(MOST_VOLTAGE_RATIO, (supplyV ?? ratedV) / ratedV);
  const settled = pumpRatio * voltageRatio;
  return settled + (speedRatio - settled) * Math.exp(-dtS / startLagS);
}

function strengthShown(neededS: number, workS: number, movedPa: number): number | null {
  if (Math.abs(movedPa) < TELLING_PA || workS === 0) return null;
  return Math.min(STRONGEST_RATIO, Math.max(WEAKEST_RATIO, neededS / workS));
}

const stronger = (known: number | null, shown: number | null): number | null =>
  shown === null || (known !== null && known >= shown) ? known : shown;
