/**
 * Faults of lamp, heat sink and glass while a guided procedure burns the lamp: the UV calibration,
 * alone of them. The alarms are those of a cure, at the unit's own limits.
 */
import type { Guided, GuidedConfig } from '../../src/procedure/guided/guided-state.ts';
import { guidedConfig } from '../procedure/guided/guided-bench.ts';
import { type Play, pass, type Scene, type Unit } from '../steered-unit.ts';
import { guidedIn } from '../steering.ts';
import { burning, celsius, type Provocation } from './provocation.ts';

export interface GuidedCase {
  readonly id: string;
  /** In the unit of the row, where the unit file tightens it. */
  readonly limit?: number;
  readonly how: Provocation<Guided>;
}

const CALIBRATING = guidedConfig('uv');

/** The lamp alight for so long before the radiometer, s. */
const litFor = (seconds: number, scene: Scene = {}, unit = CALIBRATING.unit): Unit<Guided> => {
  const config: GuidedConfig = { ...CALIBRATING, unit };
  return burning({ ...guidedIn('light-settle'), config }, seconds, scene);
};

/** A lamp of which nothing is known, so that any heat may be its own. */
const ANY_LAMP = {
  ...CALIBRATING.unit,
  lampHeat: {
    ...CALIBRATING.unit.lampHeat,
    electricW: 200,
    heatLeastRatio: 0,
    sinkWithinRatio: 0.6,
  },
};
/** A unit that lets a spot warm as it likes. */
const ANY_HEATING = {
  ...CALIBRATING.unit,
  heating: { ...CALIBRATING.unit.heating, own: { spotOverPaneK: 100, rateKPerS: 10 } },
};

const REST_SINK_K = celsius(25);
const STUCK_SINK: Scene = { heatSinkK: REST_SINK_K };
/** The glass thermistor tells the air: 23 C, 2 K under the heat sink at rest. */
const BEGAN_C = 23;
const glassAt = (c: number): Scene => ({ glassK: celsius(c) });
const warmedBy = (k: number): Scene => glassAt(BEGAN_C + k);
/** Smoothing of the spot's temperature, s. */
const SMOOTHED_S = 8;
/** 60 % of 12 W into 75 J/K, losing 0.5 W/K to air of 20 C: from 25 to 20 + 14.4 C. */
const SLOWEST = { riseK: 9.4, timeConstantS: 150 };

/** Warmed slowly to just under the limit of 8 K over the glass around, and under that of 10 K/min. */
const WARMED: Play = (sinceS) => warmedBy(Math.min(7.5, 0.1 * sinceS));

export const GUIDED_CASES: readonly GuidedCase[] = [
  {
    id: 'lamp-no-light',
    how: {
      start: () => litFor(2, { litWPerM2: 22 }),
      play: (mW) => ({ litWPerM2: 10 * mW }),
      step: 0.1,
      lively: true,
    },
  },
  {
    id: 'light-unsteady',
    how: {
      start: () => litFor(2),
      play: (seconds) => (sinceS) => ({ litWPerM2: sinceS < seconds - 0.025 ? 220 : 195 }),
      step: 0.05,
      over: 2,
      seenAfterS: 0.75,
      slackS: 0.05,
      quietS: 5,
      lively: true,
    },
  },
  {
    id: 'lamp-hot',
    how: {
      start: () => litFor(6, {}, ANY_LAMP),
      play: (c) => ({ heatSinkK: celsius(c) }),
      step: 0.4,
      lively: true,
    },
  },
  {
    id: 'heat-sink-cold',
    how: {
      start: () => litFor(0.5),
      play: () => STUCK_SINK,
      runsS: (k) => SLOWEST.timeConstantS * Math.log(SLOWEST.riseK / (SLOWEST.riseK - k)) - 0.5,
      slackS: 3,
      sound: STUCK_SINK,
      lively: true,
    },
  },
  {
    id: 'heat-sink-warm',
    how: {
      start: () => litFor(0.5),
      // 72 W into 60 J/K, as in a repair.
      play: () => (sinceS) => ({ heatSinkK: REST_SINK_K + 1.2 * sinceS }),
      runsS: () => 5.5,
      slackS: 0.7,
      sound: STUCK_SINK,
      lively: true,
    },
  },
  {
    id: 'glass-hot',
    limit: 45,
    how: {
      start: () => litFor(2, glassAt(44), ANY_HEATING),
      play: glassAt,
      step: 0.4,
      sound: glassAt(41),
      lively: true,
    },
  },
  {
    id: 'spot-hot',
    limit: 8,
    how: {
      start: () => pass(litFor(2), 100, WARMED),
      play: warmedBy,
      step: 0.3,
      over: 11,
      seenAfterS: SMOOTHED_S * Math.log(3.5 / 3),
      slackS: 0.4,
      followsS: 8 * SMOOTHED_S,
      quietS: 15,
      sound: warmedBy(3),
      lively: true,
    },
  },
  {
    id: 'heated-too-fast',
    limit: 10,
    how: {
      start: () => litFor(2),
      play: (kPerMin) => warmedBy((kPerMin / 60) * Math.E * SMOOTHED_S),
      step: 0.5,
      over: 13,
      // Where x exp(1 - x) comes to 10 / 13 and, going back, to 9 / 13.
      seenAfterS: 0.439 * SMOOTHED_S,
      turnsBackS: 2.118 * SMOOTHED_S,
      slackS: 0.3,
      quietS: 15,
      followsS: 3 * SMOOTHED_S,
      lively: true,
    },
  },
];
