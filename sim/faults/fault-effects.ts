/**
 * How faults act: when they begin and end, and what each does at its place. Small functions turn
 * the sound value into the faulty one; the physics has no fault branches of its own.
 */
import {
  type Actuators,
  type Channel,
  FULL_SCALE_COUNTS,
  type Switches,
} from '../../src/core/frame.ts';
import type { SeenStep } from '../people/screen-reading.ts';
import type { Conditions } from '../plant/setup.ts';
import { amountOf, type FaultKind } from './fault-kinds.ts';
import type { Fault, Remedy } from './faults.ts';

export interface FaultClock {
  /** Faults that act now, with this step on the display. */
  readonly active: (timeS: number, step: SeenStep | null) => readonly Fault[];
  /** Ends the faults that this remedy cures; true when there was one. */
  readonly mend: (remedies: readonly Remedy[]) => boolean;
}

const stepOf = (from: Exclude<Fault['from'], { atS: number }>): SeenStep =>
  'phase' in from ? from.phase : from.step;

export function createFaultClock(faults: readonly Fault[]): FaultClock {
  const began = new Map<Fault, number>();
  const mended = new Set<Fault>();
  let now: readonly Fault[] = [];
  return {
    active: (timeS, step) => {
      for (const fault of faults) {
        if (began.has(fault)) continue;
        if ('atS' in fault.from) began.set(fault, fault.from.atS);
        else if (stepOf(fault.from) === step) began.set(fault, timeS + fault.from.afterS);
      }
      now = faults.filter((fault) => {
        const from = began.get(fault);
        if (from === undefined || mended.has(fault) || timeS < from) return false;
        return fault.lastsS === undefined || timeS < from + fault.lastsS;
      });
      return now;
    },
    mend: (remedies) => {
      const ended = now.filter(
        ({ mendedBy }) => mendedBy !== undefined && remedies.includes(mendedBy),
      );
      for (const fault of ended) mended.add(fault);
      return ended.length > 0;
    },
  };
}

type Effects<T> = Readonly<Partial<Record<FaultKind, (sound: T, amount: number) => T>>>;

function applyAll<T>(effects: Effects<T>, sound: T, faults: readonly Fault[]): T {
  return faults.reduce(
    (value, fault) => effects[fault.kind]?.(value, amountOf(fault)) ?? value,
    sound,
  );
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
};

/** A stuck driver drives; protection behind it can still cut it off. */
const ON_DRIVERS: Effects<Actuators> = {
  'pump-stuck-on': (a) => ({ ...a, pumpRatio: 1 }),
  'lamp-stuck-on': (a) => ({ ...a, lampEnabled: true, lampRatio: 1 }),
};

/** A dead or jammed part stays so, whatever the command. */
const ON_MECHANICS: Effects<Actuators> = {
  'pump-dead': (a) => ({ ...a, pumpRatio: 0 }),
  'vent-stuck-closed': (a) => ({ ...a, ventOpen: false }),
  'lamp-dead': (a) => ({ ...a, lampEnabled: false, lampRatio: 0 }),
};

const ON_SWITCHES: Effects<Switches> = {
  'over-pressure-switch': (s) => ({ ...s, overPressureTripped: true }),
  'emergency-stop': (s) => ({ ...s, emergencyStopPressed: true }),
  'shield-opened': (s) => ({ ...s, shieldClosed: false }),
};

export const applyToWorld = (sound: Conditions, faults: readonly Fault[]): Conditions =>
  applyAll(ON_WORLD, sound, faults);

export const applyToDrivers = (sound: Actuators, faults: readonly Fault[]): Actuators =>
  applyAll(ON_DRIVERS, sound, faults);

export const applyToMechanics = (sound: Actuators, faults: readonly Fault[]): Actuators =>
  applyAll(ON_MECHANICS, sound, faults);

export const applyToSwitches = (sound: Switches, faults: readonly Fault[]): Switches =>
  applyAll(ON_SWITCHES, sound, faults);

type Counts = Record<Channel, number>;

/** `stuckAt` remembers the counts at which a sensor froze. */
export function applyToCounts(
  sound: Counts,
  faults: readonly Fault[],
  stuckAt: Map<Fault, number>,
): Counts {
  const counts = { ...sound };
  for (const fault of faults) {
    const { channel } = fault;
    if (channel === undefined) continue;
    const now = counts[channel];
    if (fault.kind === 'sensor-open') counts[channel] = 0;
    if (fault.kind === 'sensor-short') counts[channel] = FULL_SCALE_COUNTS;
    if (fault.kind === 'sensor-offset') counts[channel] = clampCounts(now + amountOf(fault));
    if (fault.kind === 'sensor-gain') {
      counts[channel] = clampCounts(ZERO_COUNTS + (now - ZERO_COUNTS) * amountOf(fault));
    }
    if (fault.kind !== 'sensor-stuck' && fault.kind !== 'sensor-dither') continue;
    if (!stuckAt.has(fault)) stuckAt.set(fault, now);
    const still = stuckAt.get(fault) ?? now;
    // The last digit follows the true count's last digit.
    counts[channel] = fault.kind === 'sensor-stuck' ? still : clampCounts(still + (now % 2));
  }
  return counts;
}

/** Start of the demo sensors' ratiometric outputs: a tenth of the converter's range. */
const ZERO_COUNTS = 0.1 * FULL_SCALE_COUNTS;

const clampCounts = (counts: number): number =>
  Math.min(FULL_SCALE_COUNTS, Math.max(0, Math.round(counts)));

export const has = (kind: FaultKind, faults: readonly Fault[]): boolean =>
  faults.some((fault) => fault.kind === kind);

/** Speed of the board's clock as a share of true time; 0 while it stands. */
export function boardClockRatio(faults: readonly Fault[]): number {
  if (has('board-stall', faults)) return 0;
  const wrong = faults.find(({ kind }) => kind === 'board-clock');
  return wrong === undefined ? 1 : amountOf(wrong);
}

/** Delay of the next frame, s. */
export const lateByS = (faults: readonly Fault[]): number =>
  faults.reduce((s, fault) => (fault.kind === 'link-late' ? Math.max(s, amountOf(fault)) : s), 0);
