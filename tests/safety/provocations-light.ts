/** Faults of lamp, light, heat and daylight, provoked in a hand-made unit. */
import type { RepairConfig } from '../../src/procedure/repair/repair-state.ts';
import { APART } from '../control/apart-driver.ts';
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
  profile: { ...APART.profile, cure: { ...APART.profile.cure, targetJPerM2: 400_000 } },
};
const SHOWN_BY = 1.056;
const inHourLong = inPhase('cure-fill', { config: HOUR_LONG });
const irradianceFor = (s: number): number => (SHOWN_BY * 400_000) / s;

const litAsHot = (c: number) => ({ heatSinkK: celsius(c) });
const glassAt = (c: number) => ({ glassK: celsius(c) });
/** The spot is this much warmer than it was when the job began. */
const BEGAN_C = 23;
const warmedBy = (k: number) => glassAt(BEGAN_C + k);
/** Smoothing of the spot's temperature, s. */
const SMOOTHED_S = 8;

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
  'lamp-no-light': {
    start: litFor(2),
    play: (mW) => ({ litWPerM2: 10 * mW }),
    step: 0.1,
    lively: true,
  },
  'light-too-bright': {
    start: litFor(2),
    play: (percent) => ({ litWPerM2: 1.95 * percent }),
    step: 0.7,
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
  'lamp-hot': { start: litFor(2), play: litAsHot, step: 0.4, lively: true },
  'glass-hot': {
    start: inPhase('vacuum-dwell', { scene: glassAt(59) }),
    play: glassAt,
    step: 0.4,
    sound: glassAt(56),
    lively: true,
  },
  'glass-cold': {
    start: inPhase('vacuum-dwell', { scene: glassAt(1) }),
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
  'daylight-set': DAYLIGHT,
  'daylight-near': DAYLIGHT,
};
