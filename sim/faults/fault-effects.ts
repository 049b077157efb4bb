/**
 * What each kind of fault does at its place outside the sensors. Small functions turn the sound
 * value into the faulty one; the physics has no fault branches of its own. When faults act is
 * decided in `fault-clock.ts`.
 */
import type { Actuators, Button, Switches } from '../../src/core/frame.ts';
import type { Sight } from '../people/technician.ts';
import type { Conditions } from '../plant/setup.ts';
import { amountOf, type FaultKind } from './fault-kinds.ts';
import type { Fault } from './faults.ts';

/** For how long a fault has acted, s. */
export type ActedS = (fault: Fault) => number;

type Effects<T> = Readonly<
  Partial<Record<FaultKind, (sound: T, amount: number, actedS: number) => T>>
>;

function applyAll<T>(
  effects: Effects<T>,
  sound: T,
  faults: readonly Fault[],
  actedS: ActedS = () => 0,
): T {
  return faults.reduce((value, fault) => {
    const effect = effects[fault.kind];
    return effect === undefined ? value : effect(value, amountOf(fault), actedS(fault));
  }, sound);
}

const ON_WORLD: Effects<Conditions> = {
  'seal-leak': (c) => ({ ...c, sealLeak: true }),
  'hose-off': (c) => ({ ...c, hoseOff: true }),
  'wet-break': (c) => ({ ...c, wetBreak: true }),
  outgassing: (c) => ({ ...c, outgassing: true }),
  'pump-worn': (c, ratio) => ({ ...c, pumpFlowRatio: ratio }),
  'lamp-aged': (c, ratio) => ({ ...c, lampAgeRatio: ratio }),
  'heat-sink-hot': (c, heatW) => ({ ...c, heatSinkHeatW: heatW }),
  'glass-hot': (c, heatW) => ({ ...c, glassHeatW: heatW }),
  'air-gun': (c, airGunK) => ({ ...c, airGunK }),
  sun: (c, sunWPerM2) => ({ ...c, sunWPerM2 }),
  daylight: (c, ambientUvWPerM2) => ({ ...c, ambientUvWPerM2 }),
  'cold-pane': (c, paneK) => ({ ...c, airK: paneK }),
  'supply-low': (c, supplyV) => ({ ...c, supplyV }),
  'supply-dips': (c, supplyV, s) => (s % DIP.everyS < DIP.lastsS ? { ...c, supplyV } : c),
  'vent-slow': (c, ratio) => ({ ...c, ventFlowRatio: ratio }),
  'hose-kinked': (c, ratio) => ({ ...c, hoseFlowRatio: ratio }),
  'hose-splits': (c, perMinute, s) => leaking(c, (perMinute * s) / 60),
  'selector-leaks': leaking,
  'relief-stuck-shut': (c) => ({ ...c, reliefCracksPa: NEVER_PA }),
  'relief-opens-early': (c, reliefCracksPa) => ({ ...c, reliefCracksPa }),
  'short-charge': (c, microlitres) => ({ ...c, chargeM3: microlitres * 1e-9 }),
  'injector-lifted': (c) => ({ ...c, injectorLifted: true }),
  'clamp-loose': (c, clampN) => ({ ...c, clampN }),
  'lamp-beside': (c, ratio) => ({ ...c, lampOnBreakRatio: ratio }),
};

const DIP = { everyS: 5, lastsS: 0.3 } as const;
/** No pump of the unit comes near it. */
const NEVER_PA = 1e9;
/** 1 dm3/(s bar), the unit of data sheets. */
const SI_PER_DM3_PER_S_BAR = 1e-8;

function leaking(c: Conditions, dm3PerSBar: number): Conditions {
  return { ...c, manifoldLeak: c.manifoldLeak + dm3PerSBar * SI_PER_DM3_PER_S_BAR };
}

/** A stuck driver drives; protection behind it can still cut it off. */
const ON_DRIVERS: Effects<Actuators> = {
  'pump-stuck-on': (a) => ({ ...a, pumpRatio: 1 }),
  'pump-stuck-at': (a, pumpRatio) => ({ ...a, pumpRatio }),
  'vent-drive-shorted': (a) => ({ ...a, ventOpen: false }),
  'lamp-stuck-on': (a) => ({ ...a, lampEnabled: true, lampRatio: 1 }),
  'lamp-undimmed': (a) => (a.lampEnabled && a.lampRatio > 0 ? { ...a, lampRatio: 1 } : a),
};

/** A dead or jammed part stays so, whatever the command. */
const ON_MECHANICS: Effects<Actuators> = {
  'pump-dead': (a) => ({ ...a, pumpRatio: 0 }),
  'pump-reversed': (a) => ({ ...a, selector: a.selector === 'vacuum' ? 'pressure' : 'vacuum' }),
  'vent-stuck-closed': (a) => ({ ...a, ventOpen: false }),
  'vent-stuck-open': (a) => ({ ...a, ventOpen: true }),
  'selector-stuck-vacuum': (a) => ({ ...a, selector: 'vacuum' }),
  'selector-stuck-pressure': (a) => ({ ...a, selector: 'pressure' }),
  'lamp-dead': dark,
  'lamp-flickers': (a, periodS, s) => (s % periodS < periodS / 2 ? a : dark(a)),
};

function dark(a: Actuators): Actuators {
  return { ...a, lampEnabled: false, lampRatio: 0 };
}

const ON_SWITCHES: Effects<Switches> = {
  'over-pressure-switch': (s) => ({ ...s, overPressureTripped: true }),
  'emergency-stop': (s) => ({ ...s, emergencyStopPressed: true }),
  'shield-opened': (s) => ({ ...s, shieldClosed: false }),
};

/**
 * A shorted contact tells of nothing, whatever happens to its switch. The over-pressure switch has
 * one contact that cuts off and is read; shield and stop have one for each.
 */
const SHORTED: Effects<Switches> = {
  'over-pressure-shorted': (s) => ({ ...s, overPressureTripped: false }),
};
const ON_READ: Effects<Switches> = {
  ...SHORTED,
  'shield-read-shorted': (s) => ({ ...s, shieldClosed: true }),
  'stop-read-shorted': (s) => ({ ...s, emergencyStopPressed: false }),
};
const ON_CUT_OFF: Effects<Switches> = {
  ...SHORTED,
  'shield-cut-shorted': (s) => ({ ...s, shieldClosed: true }),
  'stop-cut-shorted': (s) => ({ ...s, emergencyStopPressed: false }),
};

/** What is wrong with the ladder of the buttons. */
export interface LadderFaults {
  /** Buttons that stay down, whoever presses. */
  readonly stuck: readonly Button[];
  readonly shorted: boolean;
  readonly open: boolean;
  /** To ground beside everything else; infinite while it is dry. */
  readonly leakOhm: number;
  /** NO's resistor relative to its own value, or that of YES in its place. */
  readonly noOhmTimes: number;
  readonly noReadsYes: boolean;
}
const SOUND_LADDER: LadderFaults = {
  stuck: [],
  shorted: false,
  open: false,
  leakOhm: Number.POSITIVE_INFINITY,
  noOhmTimes: 1,
  noReadsYes: false,
};

const ON_LADDER: Effects<LadderFaults> = {
  'yes-stuck': (ladder) => ({ ...ladder, stuck: [...ladder.stuck, 'yes'] }),
  'no-stuck': (ladder) => ({ ...ladder, stuck: [...ladder.stuck, 'no'] }),
  'hold-stuck': (ladder) => ({ ...ladder, stuck: [...ladder.stuck, 'hold'] }),
  'ladder-shorted': (ladder) => ({ ...ladder, shorted: true }),
  'ladder-open': (ladder) => ({ ...ladder, open: true }),
  'ladder-wet': (ladder, leakOhm) => ({ ...ladder, leakOhm }),
  'no-drifts': (ladder, noOhmTimes) => ({ ...ladder, noOhmTimes }),
  'no-reads-yes': (ladder) => ({ ...ladder, noReadsYes: true }),
};

const ON_SIGHT: Effects<Sight> = {
  'says-all-well': () => ({
    bubbling: false,
    clear: true,
    tacky: false,
    level: true,
    resinLeft: true,
  }),
};

export const applyToWorld = (
  sound: Conditions,
  faults: readonly Fault[],
  actedS: ActedS,
): Conditions => applyAll(ON_WORLD, sound, faults, actedS);

export const applyToDrivers = (sound: Actuators, faults: readonly Fault[]): Actuators =>
  applyAll(ON_DRIVERS, sound, faults);

export const applyToMechanics = (
  sound: Actuators,
  faults: readonly Fault[],
  actedS: ActedS,
): Actuators => applyAll(ON_MECHANICS, sound, faults, actedS);

/** The true positions; what is read of them, and what cuts off, may differ. */
export const applyToSwitches = (sound: Switches, faults: readonly Fault[]): Switches =>
  applyAll(ON_SWITCHES, sound, faults);

export const switchesRead = (truth: Switches, faults: readonly Fault[]): Switches =>
  applyAll(ON_READ, truth, faults);

export const switchesCutting = (truth: Switches, faults: readonly Fault[]): Switches =>
  applyAll(ON_CUT_OFF, truth, faults);

export const ladderFaultsOf = (faults: readonly Fault[]): LadderFaults =>
  applyAll(ON_LADDER, SOUND_LADDER, faults);

/** What a person says that they see. */
export const applyToSight = (sound: Sight, faults: readonly Fault[]): Sight =>
  applyAll(ON_SIGHT, sound, faults);

export const faultOf = (kind: FaultKind, faults: readonly Fault[]): Fault | undefined =>
  faults.find((fault) => fault.kind === kind);

export const has = (kind: FaultKind, faults: readonly Fault[]): boolean =>
  faultOf(kind, faults) !== undefined;

/** Speed of the board's clock as a share of true time; 0 while it stands. */
export function boardClockRatio(faults: readonly Fault[]): number {
  if (has('board-stall', faults)) return 0;
  const wrong = faults.find(({ kind }) => kind === 'board-clock');
  return wrong === undefined ? 1 : amountOf(wrong);
}

/** Delay of the next frame, s. */
export const lateByS = (faults: readonly Fault[]): number =>
  faults.reduce((s, fault) => (fault.kind === 'link-late' ? Math.max(s, amountOf(fault)) : s), 0);

/** Error of the host's own clock, s. */
export const hostClockErrorS = (faults: readonly Fault[], actedS: ActedS): number =>
  faults.reduce((errorS, fault) => {
    if (fault.kind === 'host-clock-jump') return errorS + amountOf(fault);
    if (fault.kind === 'host-clock') return errorS + (amountOf(fault) - 1) * actedS(fault);
    return errorS;
  }, 0);

/** Whether the board is reset in this look at the faults; one in a loop begins anew each time. */
export const isReset = (faults: readonly Fault[], actedS: ActedS, lookS: number): boolean =>
  faults.some(
    (fault) =>
      fault.kind === 'board-restart' ||
      (fault.kind === 'board-reset-loop' && actedS(fault) % amountOf(fault) < lookS),
  );
