/**
 * One case for each alarm: the situation in which it is armed, and how to set its monitored value
 * just below and just above its limit. `alarm-table.test.ts` puts every case through the same five
 * tests.
 */
import type { AlarmContext } from '../../src/safety/alarm-row.ts';
import { ATMOSPHERE_PA, faulty, measured } from '../frames.ts';
import { QUIET_CONTEXT } from './quiet-context.ts';

export interface AlarmCase {
  readonly id: string;
  readonly armed: Partial<AlarmContext>;
  /** Puts the value, SI, in place. */
  readonly at: (context: AlarmContext, valueSI: number) => AlarmContext;
  readonly justUnder: number;
  readonly justOver: number;
}

type Key = 'pressurePa' | 'irradianceWPerM2' | 'glassK' | 'heatSinkK' | 'supplyV';

export const reads =
  (key: Key, toValue = (v: number): number => v) =>
  (context: AlarmContext, valueSI: number): AlarmContext => ({
    ...context,
    reading: { ...context.reading, [key]: measured(toValue(valueSI)) },
  });

const fails =
  (key: Key) =>
  (context: AlarmContext, bad: number): AlarmContext =>
    bad === 0
      ? context
      : { ...context, reading: { ...context.reading, [key]: faulty('out-of-range') } };

export const switched =
  (switches: Partial<AlarmContext['reading']['switches']>) =>
  (context: AlarmContext, bad: number): AlarmContext =>
    bad === 0
      ? context
      : {
          ...context,
          reading: {
            ...context.reading,
            switches: { ...context.reading.switches, ...switches },
          },
        };

const flagged =
  (flags: Partial<AlarmContext['reading']>) =>
  (context: AlarmContext, bad: number): AlarmContext =>
    bad === 0 ? context : { ...context, reading: { ...context.reading, ...flags } };

export const sets =
  (key: keyof AlarmContext) =>
  (context: AlarmContext, valueSI: number): AlarmContext => ({ ...context, [key]: valueSI });

const heats =
  (key: 'spotOverPaneK' | 'rateKPerS') =>
  (context: AlarmContext, valueSI: number): AlarmContext => ({
    ...context,
    heating: { ...context.heating, [key]: valueSI },
  });

/** In the light of a sound lamp, but for this. */
const follows =
  (key: keyof AlarmContext['lampHeat']) =>
  (context: AlarmContext, valueSI: number): AlarmContext => ({
    ...reads('irradianceWPerM2')(context, 195),
    lampHeat: { ...context.lampHeat, [key]: valueSI },
  });

const lightens = (context: AlarmContext, criticalShare: number): AlarmContext => ({
  ...context,
  openResin: { ...context.openResin, criticalShare },
});

export const YES_NO = { justUnder: 0, justOver: 1 } as const;
export const inCure = { phase: 'cure', lampOnForS: 20, lampOffForS: 0 } as const;

/** Without those of lamp and light, which are in `alarm-cases-light.ts`. */
export const ALARM_CASES: readonly AlarmCase[] = [
  { id: 'emergency-stop', armed: {}, at: switched({ emergencyStopPressed: true }), ...YES_NO },
  { id: 'over-pressure-switch', armed: {}, at: switched({ overPressureTripped: true }), ...YES_NO },
  { id: 'shield-open', armed: { phase: 'cure' }, at: switched({ shieldClosed: false }), ...YES_NO },
  {
    id: 'shield-not-shown',
    armed: { phase: 'cure' },
    at: (context, bad) => ({ ...context, shieldShown: bad === 0 }),
    ...YES_NO,
  },
  {
    id: 'over-pressure',
    armed: { phase: 'pressure-dwell' },
    at: reads('pressurePa', (gauge) => ATMOSPHERE_PA + gauge),
    justUnder: 171_900,
    justOver: 172_100,
  },
  {
    id: 'vacuum-too-deep',
    armed: {},
    at: reads('pressurePa'),
    justUnder: 15_100,
    justOver: 14_900,
  },
  {
    id: 'vacuum-under-reach',
    armed: { phase: 'evacuate' },
    at: sets('phaseElapsedS'),
    justUnder: 29.9,
    justOver: 30.1,
  },
  {
    id: 'pressure-under-reach',
    armed: { phase: 'pressurise' },
    at: sets('phaseElapsedS'),
    justUnder: 29.9,
    justOver: 30.1,
  },
  {
    id: 'not-vented',
    armed: { phase: 'release' },
    at: sets('phaseElapsedS'),
    justUnder: 29.9,
    justOver: 30.1,
  },
  {
    id: 'set-point-lost',
    armed: { setPointPa: 25_000 },
    at: reads('pressurePa', (away) => 25_000 + away),
    justUnder: 4_900,
    justOver: 5_100,
  },
  {
    id: 'set-point-passed',
    armed: { setPointPa: 239_000, phase: 'pressure-dwell' },
    at: reads('pressurePa', (past) => 239_000 + past),
    justUnder: 7_900,
    justOver: 8_100,
  },
  {
    id: 'leak',
    armed: { phase: 'reseat' },
    at: sets('leakRatePaM3PerS'),
    justUnder: 0.0049,
    justOver: 0.0051,
  },
  {
    // Half more than the profile's limit for the test of the seal, 0.005.
    id: 'leak-in-dwell',
    armed: { phase: 'pressure-dwell' },
    at: sets('dwellLeakPaM3PerS'),
    justUnder: 0.0074,
    justOver: 0.0076,
  },
  {
    id: 'pump-no-effect',
    armed: { phase: 'evacuate' },
    at: sets('pumpAheadPa'),
    justUnder: 5_900,
    justOver: 6_100,
  },
  {
    id: 'vent-no-effect',
    armed: { phase: 'release', ventOpenForS: 3.1 },
    at: reads('pressurePa', (away) => ATMOSPHERE_PA + away),
    justUnder: 7_900,
    justOver: 8_100,
  },
  {
    id: 'lamp-hot',
    armed: inCure,
    at: (context, k) => reads('heatSinkK')(reads('irradianceWPerM2')(context, 200), k),
    justUnder: 343.05,
    justOver: 343.25,
  },
  { id: 'glass-hot', armed: {}, at: reads('glassK'), justUnder: 313.05, justOver: 313.25 },
  { id: 'glass-cold', armed: {}, at: reads('glassK'), justUnder: 285.25, justOver: 285.05 },
  { id: 'spot-hot', armed: {}, at: heats('spotOverPaneK'), justUnder: 5.69, justOver: 5.71 },
  {
    id: 'heated-too-fast',
    armed: {},
    at: heats('rateKPerS'),
    justUnder: 9.99 / 60,
    justOver: 10.01 / 60,
  },
  {
    id: 'heat-near-limit',
    armed: {},
    at: (context, share) => heats('spotOverPaneK')(context, share * 5.7),
    justUnder: 0.799,
    justOver: 0.801,
  },
  {
    id: 'heat-sink-cold',
    armed: inCure,
    at: follows('sinkLackK'),
    justUnder: 1.99,
    justOver: 2.01,
  },
  {
    id: 'heat-sink-warm',
    armed: inCure,
    at: follows('sinkExcessK'),
    justUnder: 2.49,
    justOver: 2.51,
  },
  {
    id: 'glass-not-warmed',
    armed: inCure,
    at: follows('glassLackK'),
    justUnder: 0.299,
    justOver: 0.301,
  },
  {
    id: 'temperatures-apart',
    armed: {},
    at: (context, k) => ({ ...context, lampHeat: { ...context.lampHeat, apartK: k } }),
    justUnder: 14.9,
    justOver: 15.1,
  },
  { id: 'daylight-set', armed: {}, at: lightens, justUnder: 0.999, justOver: 1.001 },
  { id: 'daylight-near', armed: {}, at: lightens, justUnder: 0.499, justOver: 0.501 },
  { id: 'pressure-sensor', armed: {}, at: fails('pressurePa'), ...YES_NO },
  { id: 'irradiance-sensor', armed: { phase: 'cure' }, at: fails('irradianceWPerM2'), ...YES_NO },
  { id: 'glass-sensor', armed: {}, at: fails('glassK'), ...YES_NO },
  { id: 'heat-sink-sensor', armed: { phase: 'cure' }, at: fails('heatSinkK'), ...YES_NO },
  { id: 'supply-sensor', armed: {}, at: fails('supplyV'), ...YES_NO },
  { id: 'supply-low', armed: {}, at: reads('supplyV'), justUnder: 10.55, justOver: 10.45 },
  { id: 'frames-late', armed: {}, at: sets('frameGapS'), justUnder: 0.19, justOver: 0.21 },
  {
    id: 'frames-rare',
    armed: {},
    at: sets('uncountedShare'),
    justUnder: 0.049,
    justOver: 0.051,
  },
  { id: 'link-lost', armed: {}, at: sets('silentS'), justUnder: 0.49, justOver: 0.51 },
  { id: 'board-clock', armed: {}, at: sets('clockOffRatio'), justUnder: 0.0099, justOver: 0.0101 },
  {
    id: 'frames-stand-still',
    armed: {},
    at: sets('clockStoodS'),
    justUnder: 0.49,
    justOver: 0.51,
  },
  { id: 'message-spoilt', armed: {}, at: flagged({ damaged: true }), ...YES_NO },
  { id: 'frames-missing', armed: {}, at: flagged({ gap: true }), ...YES_NO },
  { id: 'board-tripped', armed: {}, at: flagged({ trips: ['watchdog'] }), ...YES_NO },
  { id: 'trip-stays', armed: {}, at: flagged({ trips: ['shield'] }), ...YES_NO },
  {
    id: 'lost-number',
    armed: {},
    at: (context, lost) => ({ ...context, lostNumber: lost > 0.5 ? 'scene.heat.paneK' : null }),
    ...YES_NO,
  },
  {
    id: 'self-test',
    armed: { phase: 'self-test', profile: { ...QUIET_CONTEXT.profile, answerWithinS: null } },
    at: sets('phaseElapsedS'),
    justUnder: 9.9,
    justOver: 10.1,
  },
  { id: 'buttons-open', armed: {}, at: flagged({ ladder: 'open' }), ...YES_NO },
  { id: 'button-stuck', armed: {}, at: sets('buttonDownForS'), justUnder: 9.9, justOver: 10.1 },
  { id: 'button-unclear', armed: {}, at: flagged({ ladder: 'between' }), ...YES_NO },
  {
    id: 'no-answer',
    armed: { phase: 'ask-bubbles' },
    at: sets('phaseElapsedS'),
    justUnder: 179.9,
    justOver: 180.1,
  },
];
