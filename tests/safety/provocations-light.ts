/** Faults of lamp, light, heat and daylight, provoked in a hand-made unit. */
import type { Procedure } from '../../src/control/procedure.ts';
import type { Repair, RepairConfig } from '../../src/procedure/repair/repair-state.ts';
import { APART } from '../control/apart-driver.ts';
import { FILL_PASSES } from '../light-path.ts';
import { pass, passUntil, type Scene, TICK_S, unitAtRest } from '../steered-unit.ts';
import {
  burning,
  celsius,
  inPhase,
  limitedBy,
  litFor,
  type Provocation,
  UNLIMITED,
} from './provocation.ts';

/** A dose that takes an hour of 111 W/m2 and what its uncertainty asks for on top. */
const HOUR_LONG: RepairConfig = {
  ...APART,
  profile: {
    ...APART.profile,
    cure: { ...APART.profile.cure, targetAtResinJPerM2: 400_000 * FILL_PASSES },
  },
};
const SHOWN_BY = 1.056;
const inHourLong = inPhase('cure-fill', { config: HOUR_LONG });
const irradianceFor = (s: number): number => (SHOWN_BY * 400_000) / s;

/** A lamp of which nothing is known, so that any heat may be its own. */
const ANY_LAMP: RepairConfig = {
  ...APART,
  unit: {
    ...APART.unit,
    lampHeat: { ...APART.unit.lampHeat, electricW: 200, heatLeastRatio: 0, sinkWithinRatio: 0.6 },
  },
};

const litAsHot = (c: number) => ({ heatSinkK: celsius(c) });
/** A profile for any glass, so that the job does not wait for it before it begins. */
const ANY_GLASS: RepairConfig = {
  ...APART,
  profile: { ...APART.profile, glass: { lowestK: celsius(-40), highestK: celsius(80) } },
};
/** Glass, air and heat sink are not compared. */
const APART_AS_IT_LIKES: Procedure<Repair> = {
  ...UNLIMITED,
  alarmsOf: (...seen) => {
    const own = UNLIMITED.alarmsOf(...seen);
    return { ...own, lampHeat: { ...own.lampHeat, apartK: null } };
  },
};
const onAnyGlass = (c: number) =>
  inPhase('vacuum-dwell', { procedure: APART_AS_IT_LIKES, config: ANY_GLASS, scene: glassAt(c) });
const glassAt = (c: number) => ({ glassK: celsius(c) });
/** The spot is this much warmer than it was when the job began. */
const BEGAN_C = 23;
const warmedBy = (k: number) => glassAt(BEGAN_C + k);
/** Smoothing of the spot's temperature, s. */
const SMOOTHED_S = 8;

/** The heat sink before the lamp is on. */
const REST_SINK_K = celsius(25);
const STUCK_SINK: Scene = { heatSinkK: REST_SINK_K };
/** Of the job sheet. */
const AIR_C = 22;
/**
 * The slowest sound heat sink: 60 % of 12 W into 75 J/K, losing 0.5 W/K to air 3 K colder than the
 * job sheet's. It comes to 19 + 14.4 C from 25 C.
 */
const SLOWEST = { riseK: 8.4, timeConstantS: 150 };

const inCure = inPhase('cure-fill');
/** 195 W/m2 at 40 C of the heat sink; at 25 C it gives 0.3 % more a kelvin. */
const KNOWN_1_PERCENT = 1.95 * (1 + 0.003 * 15);
const inVacuum = inPhase('vacuum-dwell');
const ALLOWED_8_K = limitedBy({ allowedSpotOverPaneK: 8 });

/** 63.4 W/m2 on open resin; 1 kJ/m2 sets the demo resin. */
const SUN: Scene = { counts: { irradiance: 232 }, switches: { shieldClosed: false } };
const SUN_W_PER_M2 = 400 * ((232 / 1023 - 0.1) / 0.8);
/** Daylight is counted in whole seconds: here such a second begins with the fault. */
const DAYLIGHT: Provocation = {
  start: () =>
    passUntil(inVacuum(), 2, {}, ({ state }) => state.scene.openResin.windowS < TICK_S / 2),
  play: () => SUN,
  runsS: (percent) => Math.ceil((10 * percent) / SUN_W_PER_M2) - TICK_S,
  followsS: 1.5,
  lively: true,
};

export const LIGHT_PROVOCATIONS: Readonly<Record<string, Provocation>> = {
  'lamp-weak': {
    // A lamp that changed would raise another alarm: it is weak from its first light on.
    start: (s) => burning(inHourLong(), 2, { litWPerM2: irradianceFor(s) }),
    play: (s) => ({ litWPerM2: irradianceFor(s) }),
    step: 200,
    // It is judged once the lamp has burnt for 5 s.
    seenAfterS: 3,
    slackS: TICK_S,
    quietS: 10,
    lively: true,
  },
  'lamp-was-weak': {
    start: (s) =>
      unitAtRest(UNLIMITED, {
        ...HOUR_LONG,
        unit: { ...HOUR_LONG.unit, lampLastKnownWPerM2: irradianceFor(s) },
      }),
    play: () => ({}),
    step: 200,
    lively: false,
  },
  // Light that jumps has an alarm of its own, so each lamp is near its limit from the beginning.
  'lamp-no-light': {
    start: () => burning(inCure(), 2, { litWPerM2: 22 }),
    play: (mW) => ({ litWPerM2: 10 * mW }),
    step: 0.1,
    lively: true,
  },
  'light-too-bright': {
    start: () => burning(inCure(), 2, { litWPerM2: KNOWN_1_PERCENT * 109 }),
    play: (percent) => ({ litWPerM2: KNOWN_1_PERCENT * percent }),
    step: 0.7,
    lively: true,
  },
  'light-too-dim': {
    start: () => burning(inCure(), 2, { litWPerM2: KNOWN_1_PERCENT * 88 }),
    play: (percent) => ({ litWPerM2: KNOWN_1_PERCENT * percent }),
    step: 0.7,
    lively: true,
  },
  'light-unsteady': {
    start: litFor(2),
    // An eighth more than the lamp gave, for so long and no longer.
    play: (seconds) => (sinceS) => ({ litWPerM2: sinceS < seconds - TICK_S / 2 ? 220 : 195 }),
    step: 0.05,
    over: 2,
    // Until the time off the level is past its limit.
    seenAfterS: 0.75,
    slackS: TICK_S,
    quietS: 5,
    lively: true,
  },
  'light-gap-failed': {
    // Light from elsewhere that is too weak for the alarm of a lamp that stays on.
    start: () => burning(inCure(), 18),
    play: (value) => ({ darkWPerM2: value > 0 ? 20 : 0 }),
    // The gap comes after 20 to 30 s of light, and a second later its time is over.
    seenAfterS: 8,
    slackS: 6,
    quietS: 14,
    lively: true,
  },
  'light-shield-open': {
    start: inVacuum,
    play: (mW) => ({ darkWPerM2: 10 * mW, switches: { shieldClosed: false } }),
    step: 0.1,
    lively: true,
  },
  'light-not-dark': {
    start: inPhase('cure-fill'),
    // The converter's steps on either side: 2.8 and 3.3 W/m2.
    play: (mW) => ({ darkCounts: mW > 0.3 ? 109 : 108 }),
    step: 0.02,
    // Later than a lamp that stays on.
    seenAfterS: 3,
    quietS: 5,
    lively: false,
  },
  'light-lamp-off': {
    start: inVacuum,
    // Under a lifted shield it may be daylight.
    play: (mW) => ({ darkWPerM2: 10 * mW, switches: { shieldClosed: true } }),
    step: 0.1,
    lively: true,
  },
  'lamp-hot': { start: litFor(6, { config: ANY_LAMP }), play: litAsHot, step: 0.4, lively: true },
  'glass-hot': {
    start: onAnyGlass(59),
    play: glassAt,
    step: 0.4,
    sound: glassAt(56),
    lively: true,
  },
  'glass-cold': {
    start: onAnyGlass(1),
    play: glassAt,
    step: 0.4,
    sound: glassAt(1),
    lively: true,
  },
  'spot-hot': {
    start: () => pass(inVacuum(), 100, (s) => warmedBy(Math.min(19.5, 0.3 * s))),
    play: warmedBy,
    step: 0.5,
    over: 27.5,
    seenAfterS: SMOOTHED_S * Math.log(8 / 7.5),
    slackS: 0.2,
    followsS: 8 * SMOOTHED_S,
    sound: warmedBy(15),
    lively: true,
  },
  'heated-too-fast': {
    start: inVacuum,
    // Smoothed twice, a step of this height rises at this rate at most, after 8 s.
    play: (kPerMin) => warmedBy((kPerMin / 60) * Math.E * SMOOTHED_S),
    step: 2,
    over: 75,
    // Where x exp(1 - x) comes to 60 / 75.
    seenAfterS: 0.472 * SMOOTHED_S,
    slackS: 0.1,
    // Before the step has warmed the spot by 20 K.
    quietS: 15,
    // Where it has fallen to 59 / 75.
    turnsBackS: 1.861 * SMOOTHED_S,
    followsS: 3 * SMOOTHED_S,
    lively: true,
  },
  'heat-near-limit': {
    start: () => pass(inPhase('vacuum-dwell', { procedure: ALLOWED_8_K })(), 50, warmedBy(6.16)),
    play: (percent) => warmedBy(0.08 * percent),
    step: 3,
    over: 98,
    seenAfterS: SMOOTHED_S * Math.log((7.84 - 6.16) / (7.84 - 6.4)),
    slackS: 0.5,
    followsS: 6 * SMOOTHED_S,
    lively: true,
  },
  'heat-sink-cold': {
    start: litFor(0.5, { config: HOUR_LONG }),
    play: () => STUCK_SINK,
    runsS: (k) => SLOWEST.timeConstantS * Math.log(SLOWEST.riseK / (SLOWEST.riseK - k)) - 0.5,
    // A step of the converter is 0.1 K, and the slowest rise 0.04 K/s.
    slackS: 3,
    sound: STUCK_SINK,
    lively: true,
  },
  'heat-sink-warm': {
    start: litFor(0.5),
    // 72 W into 60 J/K.
    play: () => (sinceS) => ({ heatSinkK: REST_SINK_K + 1.2 * sinceS }),
    // Where 1.2 (t - 2 (1 - exp(-t / 2))), smoothed for 2 s, is 2.5 over 53 (1 - exp(-t / 150)).
    runsS: () => 5.5,
    slackS: 0.7,
    sound: STUCK_SINK,
    lively: true,
  },
  'glass-not-warmed': {
    start: litFor(0.5, { config: HOUR_LONG }),
    play: () => glassAt(BEGAN_C),
    // 30 % of 195 W/m2 on 1.3 times 8.2 kJ/(m2 K) and 47 W/(m2 K): 0.957 K with 174 s.
    runsS: (k) => 174.5 * Math.log(0.957 / (0.957 - k)) - 0.5,
    // A count is 0.09 K, and the least rise 0.005 K/s.
    slackS: 10,
    lively: true,
  },
  'temperatures-apart': {
    start: inVacuum,
    play: (k) => glassAt(AIR_C + k),
    step: 0.5,
    lively: true,
  },
  'daylight-set': DAYLIGHT,
  'daylight-near': DAYLIGHT,
};
