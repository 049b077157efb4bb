/**
 * Whether the plant follows its commands: how long the pump has worked without effect, the lamp was
 * on or off, the vent was open, the board's clock kept time, the light stood still. It gives
 * durations and ratios only; the alarm table decides what is too long.
 */
import { type Actuators, lampBurns, type Reading, valueOrNull } from '../../core/frame.ts';
import {
  CLOCK_WATCH_START,
  type ClockSeen,
  type ClockWatch,
  stepClockWatch,
} from './clock-watch.ts';
import { LIGHT_WATCH_START, type LightWatch, stepLightWatch } from './light-watch.ts';
import { SAMPLING_START, type SamplingWatch, stepSampling } from './sampling-watch.ts';
import { SHIELD_START, type ShieldWatch, stepShield } from './shield-watch.ts';

export interface Watch {
  readonly pumpFutileS: number;
  /** Pressure at which the pump last made progress; null while it is not hard at work. */
  readonly headwayPa: number | null;
  readonly lampOnForS: number;
  readonly lampOffForS: number;
  readonly ventOpenForS: number;
  readonly clock: ClockWatch;
  readonly sampling: SamplingWatch;
  readonly light: LightWatch;
  readonly shield: ShieldWatch;
}

export const WATCH_START: Watch = {
  pumpFutileS: 0,
  headwayPa: null,
  lampOnForS: 0,
  lampOffForS: 0,
  ventOpenForS: 0,
  clock: CLOCK_WATCH_START,
  sampling: SAMPLING_START,
  light: LIGHT_WATCH_START,
  shield: SHIELD_START,
};

export interface WatchSeen extends ClockSeen {
  readonly pressurePa: number | null;
  /** The light sensor's latest counts. */
  readonly lightCounts: number | null;
  readonly shieldOpen: boolean;
  /** A person works at the glass, outside a cure. */
  readonly handWork: boolean;
}

/**
 * A pump that works this hard must move the pressure by this much: three steps of the converter.
 */
const HARD_AT_WORK_RATIO = 0.5;
const HEADWAY_PA = 1_500;

/** What the watch uses of a reading. */
export const watchedIn = (
  reading: Reading,
  lightCounts: number | null,
  handWork: boolean,
): WatchSeen => ({
  timeS: reading.timeS,
  hostTimeS: reading.hostTimeS,
  unbroken: reading.link === 'up' && !reading.gap,
  pressurePa: valueOrNull(reading.pressurePa),
  lightCounts,
  shieldOpen: reading.link === 'up' && !reading.switches.shieldClosed,
  handWork,
});

/**
 * `gapS`: since the last frame. What acts acts for all of it, also where only `countedS` of it
 * counts for dwell and dose.
 */
export function stepWatch(
  watch: Watch,
  commanded: Actuators,
  seen: WatchSeen,
  { gapS, dtS: countedS }: { readonly gapS: number; readonly dtS: number },
): Watch {
  const lampOn = lampBurns(commanded);
  const headwayPa = headwayOf(watch, commanded, seen.pressurePa);
  const futile = headwayPa !== null && headwayPa === watch.headwayPa;
  return {
    headwayPa,
    pumpFutileS: futile ? watch.pumpFutileS + gapS : 0,
    lampOnForS: lampOn ? watch.lampOnForS + gapS : 0,
    lampOffForS: lampOn ? 0 : watch.lampOffForS + gapS,
    ventOpenForS: commanded.ventOpen ? watch.ventOpenForS + gapS : 0,
    clock: stepClockWatch(watch.clock, seen),
    sampling: stepSampling(watch.sampling, gapS, countedS),
    light: stepLightWatch(watch.light, seen.lightCounts, lampOn, gapS),
    shield: stepShield(
      watch.shield,
      { timeS: seen.timeS, open: seen.shieldOpen, lampOn, handWork: seen.handWork },
      gapS,
    ),
  };
}

/**
 * The pressure to beat: it advances whenever the pump has gained enough, and is null while the pump
 * idles.
 */
function headwayOf(
  { headwayPa }: Watch,
  { pumpRatio, selector }: Actuators,
  pressurePa: number | null,
): number | null {
  if (pumpRatio < HARD_AT_WORK_RATIO || pressurePa === null) return null;
  if (headwayPa === null) return pressurePa;
  const wonPa = selector === 'vacuum' ? headwayPa - pressurePa : pressurePa - headwayPa;
  return wonPa >= HEADWAY_PA ? pressurePa : headwayPa;
}
