/**
 * Whether the plant follows its commands: how far the pressure is behind the pump's work, how long
 * the lamp was on or off and the vent open, whether the board's clock kept time and the light stood
 * still. It gives quantities only; the alarm table decides what is too much.
 */
import {
  type Actuators,
  type LadderReading,
  lampBurns,
  type Reading,
  valueOrNull,
} from '../../core/frame.ts';
import { AIR_WATCH_START, type AirSeen, type AirWatch, stepAirWatch } from './air-watch.ts';
import {
  CLOCK_WATCH_START,
  type ClockSeen,
  type ClockWatch,
  stepClockWatch,
} from './clock-watch.ts';
import {
  DWELL_WATCH_START,
  type DwellSeen,
  type DwellWatch,
  stepDwellWatch,
} from './dwell-watch.ts';
import { LIGHT_WATCH_START, type LightWatch, stepLightWatch } from './light-watch.ts';
import type { Chamber } from './pump-model.ts';
import { SAMPLING_START, type SamplingWatch, stepSampling } from './sampling-watch.ts';
import { SHIELD_START, type ShieldWatch, stepShield } from './shield-watch.ts';

export interface Watch {
  readonly air: AirWatch;
  readonly dwell: DwellWatch;
  readonly lampOnForS: number;
  readonly lampOffForS: number;
  readonly ventOpenForS: number;
  readonly clock: ClockWatch;
  readonly sampling: SamplingWatch;
  readonly light: LightWatch;
  readonly shield: ShieldWatch;
  /** How long the ladder of the buttons has not been at rest, s. */
  readonly buttonDownForS: number;
}

export const WATCH_START: Watch = {
  air: AIR_WATCH_START,
  dwell: DWELL_WATCH_START,
  lampOnForS: 0,
  lampOffForS: 0,
  ventOpenForS: 0,
  clock: CLOCK_WATCH_START,
  sampling: SAMPLING_START,
  light: LIGHT_WATCH_START,
  shield: SHIELD_START,
  buttonDownForS: 0,
};

export interface WatchSeen extends ClockSeen, AirSeen, DwellSeen {
  /** The light sensor's latest counts. */
  readonly lightCounts: number | null;
  readonly shieldOpen: boolean;
  /** A button is down, or the ladder reads between two. */
  readonly buttonDown: boolean;
  /** A person works at the glass, outside a cure. */
  readonly handWork: boolean;
}

/** What a procedure knows of the chamber, and of a person's hands. */
export type ProcedureSeen = Pick<
  WatchSeen,
  'atmospherePa' | 'leakM3PerS' | 'dwelling' | 'handWork'
>;

/** What the watch uses of a reading. */
export const watchedIn = (
  reading: Reading,
  lightCounts: number | null,
  { atmospherePa, leakM3PerS, dwelling, handWork }: ProcedureSeen,
): WatchSeen => ({
  timeS: reading.timeS,
  hostTimeS: reading.hostTimeS,
  unbroken: reading.link === 'up' && !reading.gap,
  pressurePa: valueOrNull(reading.pressurePa),
  supplyV: valueOrNull(reading.supplyV),
  atmospherePa,
  leakM3PerS,
  dwelling,
  lightCounts,
  shieldOpen: reading.link === 'up' && !reading.switches.shieldClosed,
  buttonDown: reading.link === 'up' && isDown(reading.ladder),
  handWork,
});

const isDown = (ladder: LadderReading | null): boolean =>
  ladder !== null && ladder !== 'released' && ladder !== 'open';

/** What acts acts for all of the gap, also where only a part of it counts for dwell and dose. */
interface FrameTimes {
  /** Since the last frame, s. */
  readonly gapS: number;
  readonly dtS: number;
}

export function stepWatch(
  watch: Watch,
  commanded: Actuators,
  seen: WatchSeen,
  chamber: Chamber,
  { gapS, dtS: countedS }: FrameTimes,
): Watch {
  const lampOn = lampBurns(commanded);
  const ventOpenForS = commanded.ventOpen ? watch.ventOpenForS + gapS : 0;
  const air = stepAirWatch(watch.air, commanded, ventOpenForS, seen, chamber, gapS);
  return {
    air,
    dwell: stepDwellWatch(watch.dwell, seen, air, chamber, gapS),
    lampOnForS: lampOn ? watch.lampOnForS + gapS : 0,
    lampOffForS: lampOn ? 0 : watch.lampOffForS + gapS,
    ventOpenForS,
    clock: stepClockWatch(watch.clock, seen),
    sampling: stepSampling(watch.sampling, gapS, countedS),
    buttonDownForS: seen.buttonDown ? watch.buttonDownForS + gapS : 0,
    light: stepLightWatch(watch.light, seen.lightCounts, lampOn, gapS),
    shield: stepShield(
      watch.shield,
      { timeS: seen.timeS, open: seen.shieldOpen, lampOn, handWork: seen.handWork },
      gapS,
    ),
  };
}
