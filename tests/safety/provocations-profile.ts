/**
 * The limits that a profile, a resin, a leg or a question tightens, each as the demo job has it and
 * again typed by hand: the alarm is the same, at a lower limit.
 */
import { REPAIR } from '../../src/procedure/repair/repair.ts';
import type { RepairConfig } from '../../src/procedure/repair/repair-state.ts';
import { alarmSettingsSchema } from '../../src/safety/alarm-settings.ts';
import { APART } from '../control/apart-driver.ts';
import { FILL_PASSES } from '../light-path.ts';
import { pass, unitAtRest } from '../steered-unit.ts';
import { repairIn } from '../steering.ts';
import { burning, celsius, inPhase, type Provocation } from './provocation.ts';
import { LIGHT_PROVOCATIONS } from './provocations-light.ts';
import { PRESSURE_PROVOCATIONS, SMALL_PUMP } from './provocations-pressure.ts';

export interface Tighter {
  readonly id: string;
  readonly by: string;
  readonly limit: number;
  readonly how: Partial<Provocation>;
}

const { profile } = APART;
const withPressure = (setPointGaugePa: number): RepairConfig => ({
  ...APART,
  profile: { ...profile, pressure: { ...profile.pressure, setPointGaugePa } },
});
const withVacuum = (setPointPa: number): RepairConfig => ({
  ...APART,
  profile: { ...profile, vacuum: { ...profile.vacuum, setPointPa } },
});
const TIGHT_UNIT: RepairConfig = {
  ...APART,
  unit: { ...APART.unit, alarms: alarmSettingsSchema.parse({ leak: { limit: 0.002 } }) },
};
const TIGHT_SEAL: RepairConfig = {
  ...APART,
  profile: { ...profile, sealCheck: { ...profile.sealCheck, leakLimitPaM3PerS: 0.004 } },
};
/** A dose that takes 120 s of 106 W/m2, what its uncertainty asks for included. */
const TWO_MINUTES_LONG: RepairConfig = {
  ...APART,
  profile: {
    ...profile,
    cure: { ...profile.cure, targetAtResinJPerM2: 12_000 * FILL_PASSES, longestS: 120 },
  },
};
/** Where a pane of 39 C is no wonder. */
const IN_A_WARM_HALL: RepairConfig = { ...APART, job: { ...APART.job, airK: celsius(30) } };
const inTwoMinutes = inPhase('cure-fill', { config: TWO_MINUTES_LONG, procedure: REPAIR });
const lampFor = (s: number): number => (1.056 * 12_000) / s;
const glassAt = (c: number) => ({ glassK: celsius(c) });

export const TIGHTER: readonly Tighter[] = [
  {
    id: 'over-pressure',
    by: 'the highest pressure of the profile',
    limit: 172,
    how: { start: () => repairIn('pressure-dwell', { config: withPressure(170_000) }) },
  },
  {
    id: 'vacuum-too-deep',
    by: 'the lowest pressure of the profile',
    limit: 15,
    how: { start: () => repairIn('vacuum-dwell', { config: withVacuum(20_000) }) },
  },
  {
    id: 'vacuum-under-reach',
    by: 'the time of the profile',
    limit: 30,
    how: { start: () => repairIn('evacuate', { config: SMALL_PUMP }) },
  },
  {
    id: 'vacuum-under-reach',
    by: 'the time of the seal test',
    limit: 15,
    how: { start: () => repairIn('seal-pull', { config: SMALL_PUMP }) },
  },
  {
    id: 'pressure-under-reach',
    by: 'the time of the profile',
    limit: 30,
    how: { start: () => repairIn('pressurise', { config: SMALL_PUMP }) },
  },
  {
    id: 'not-vented',
    by: 'the time in which a vent lets all down',
    limit: 15,
    how: { start: () => repairIn('release') },
  },
  {
    id: 'leak',
    by: 'the limit of the profile',
    limit: 0.005,
    how: { start: () => repairIn('seal-watch'), step: 0.0007 },
  },
  {
    id: 'leak',
    by: 'the unit file',
    limit: 0.002,
    how: { start: () => repairIn('seal-watch', { config: TIGHT_UNIT }), step: 0.0007 },
  },
  {
    id: 'leak-in-dwell',
    by: 'half more than the limit of the profile',
    limit: 0.006,
    how: { start: () => repairIn('vacuum-dwell', { config: TIGHT_SEAL }), step: 0.0015 },
  },
  {
    id: 'glass-hot',
    by: 'the highest temperature of the profile',
    limit: 40,
    how: {
      start: () => repairIn('vacuum-dwell', { config: IN_A_WARM_HALL, scene: glassAt(39) }),
      sound: glassAt(37),
    },
  },
  {
    id: 'glass-cold',
    by: 'the lowest temperature of the profile',
    limit: 12,
    how: { start: () => repairIn('vacuum-dwell', { scene: glassAt(13) }), sound: glassAt(13) },
  },
  {
    id: 'spot-hot',
    by: 'a leg of 10 mm',
    // Where the stress at its tip comes to 0.25 MPa sqrt(m).
    limit: 5.7,
    how: {
      start: () => pass(repairIn('vacuum-dwell'), 90, (s) => glassAt(23 + Math.min(5.2, 0.08 * s))),
      over: 8.7,
      seenAfterS: 8 * Math.log(3.5 / 3),
      slackS: 0.3,
      sound: glassAt(26),
    },
  },
  {
    id: 'heated-too-fast',
    by: 'the unit file',
    limit: 10,
    how: {
      start: () => repairIn('vacuum-dwell'),
      step: 0.5,
      over: 13,
      // Where x exp(1 - x) comes to 10 / 13 and, going back, to 9 / 13.
      seenAfterS: 0.439 * 8,
      turnsBackS: 2.118 * 8,
      slackS: 0.3,
    },
  },
  {
    id: 'lamp-weak',
    by: 'the longest cure of the profile',
    limit: 120,
    how: {
      start: (s) => burning(inTwoMinutes(), 2, { litWPerM2: lampFor(s) }),
      play: (s) => ({ litWPerM2: lampFor(s) }),
      step: 7,
    },
  },
  {
    id: 'lamp-was-weak',
    by: 'the longest cure of the profile',
    limit: 120,
    how: {
      start: (s) => {
        const unit = { ...TWO_MINUTES_LONG.unit, lampLastKnownWPerM2: lampFor(s) };
        return unitAtRest(REPAIR, { ...TWO_MINUTES_LONG, unit });
      },
      step: 7,
    },
  },
  {
    id: 'no-answer',
    by: 'vacuum that stands on the glass',
    limit: 180,
    how: { start: () => repairIn('ask-bubbles') },
  },
];

export const howTighter = ({ id, how }: Tighter): Provocation => {
  const usual = { ...PRESSURE_PROVOCATIONS, ...LIGHT_PROVOCATIONS }[id] ?? WAITING;
  return { ...usual, ...how };
};
const WAITING: Provocation = {
  start: () => repairIn('inspect'),
  play: () => ({}),
  runsS: (s) => s,
  lively: true,
};
