/**
 * What faults make of the sensors: of where they sit, before they measure, and of their counts. A
 * memory holds what a sensor froze at or follows slowly.
 */
import {
  CHANNELS,
  type Channel,
  FULL_SCALE_COUNTS,
  type ReadingKey,
} from '../../src/core/frame.ts';
import type { Chance } from '../random.ts';
import type { ActedS } from './fault-effects.ts';
import { amountOf, type FaultKind } from './fault-kinds.ts';
import type { Fault } from './faults.ts';

/** The truth at each sensor, and the air around them. */
export interface Seat extends Readonly<Record<ReadingKey, number>> {
  readonly airK: number;
}

type SeatEffect = <S extends Seat>(sound: S, amount: number) => S;

const touching = (share: number, partK: number, airK: number): number =>
  airK + share * (partK - airK);
/** Supply of the sensors and reference of the converter. */
const REFERENCE_V = 5;

const ON_SEAT: Readonly<Partial<Record<FaultKind, SeatEffect>>> = {
  'glass-thermistor-off': (s, share) => ({ ...s, glassK: touching(share, s.glassK, s.airK) }),
  'sink-thermistor-off': (s, share) => ({ ...s, heatSinkK: touching(share, s.heatSinkK, s.airK) }),
  'thermistors-exchanged': (s) => ({ ...s, glassK: s.heatSinkK, heatSinkK: s.glassK }),
  'stray-light': (s, wPerM2) => ({ ...s, irradianceWPerM2: s.irradianceWPerM2 + wPerM2 }),
  // All other sensors are fed by the reference, and their ratio stays.
  'reference-drifts': (s, volts) => ({ ...s, supplyV: (s.supplyV * REFERENCE_V) / volts }),
};

export function applyToSeats<S extends Seat>(sound: S, faults: readonly Fault[]): S {
  let seat = sound;
  for (const fault of faults) seat = ON_SEAT[fault.kind]?.(seat, amountOf(fault)) ?? seat;
  return seat;
}

type Counts = Record<Channel, number>;

/** What a faulty sensor remembers: the counts that it froze at or last followed, and when. */
interface Remembered {
  readonly counts: number;
  readonly atS: number;
}

export interface SensorMemory {
  readonly byFault: Map<Fault, Remembered>;
  /** The converter's last results, while it stands still. */
  stalled: Readonly<Counts> | null;
}

export const createSensorMemory = (): SensorMemory => ({ byFault: new Map(), stalled: null });

/** One channel under one fault at one moment. */
interface Moment {
  readonly now: number;
  readonly amount: number;
  readonly actedS: number;
  readonly before: Remembered;
  readonly chance: Chance;
}

/** Start of the demo sensors' ratiometric outputs: a tenth of the converter's range. */
const ZERO_COUNTS = 0.1 * FULL_SCALE_COUNTS;

const ON_COUNTS: Readonly<Partial<Record<FaultKind, (moment: Moment) => number>>> = {
  'sensor-open': () => 0,
  'sensor-short': () => FULL_SCALE_COUNTS,
  'sensor-stuck': ({ before }) => before.counts,
  // The last digit follows the true count's last digit.
  'sensor-dither': ({ before, now }) => before.counts + (now % 2),
  'sensor-gain': ({ now, amount }) => ZERO_COUNTS + (now - ZERO_COUNTS) * amount,
  'sensor-offset': ({ now, amount }) => now + amount,
  'sensor-drift': ({ now, amount, actedS }) => now + (amount * actedS) / 60,
  'sensor-noise': ({ now, amount, chance }) => now + amount * chance.gaussian(),
  'sensor-saturates': ({ now, amount }) => Math.min(now, amount),
  'sensor-slow': ({ now, amount, actedS, before }) =>
    now + (before.counts - now) * Math.exp((before.atS - actedS) / amount),
};
/** Kinds that move what they remember along. */
const FOLLOWING: readonly FaultKind[] = ['sensor-slow'];

/** `sound` is not changed; where nothing is wrong, it is what comes back. */
export function applyToCounts(
  sound: Counts,
  faults: readonly Fault[],
  memory: SensorMemory,
  actedS: ActedS,
  chance: Chance,
): Counts {
  if (faults.length === 0) {
    memory.stalled = null;
    return sound;
  }
  const counts = { ...sound };
  for (const fault of faults) {
    const { channel, kind } = fault;
    const effect = ON_COUNTS[kind];
    if (channel === undefined || effect === undefined) continue;
    const now = counts[channel];
    const forS = actedS(fault);
    const before = memory.byFault.get(fault) ?? { counts: now, atS: forS };
    const exact = effect({ now, amount: amountOf(fault), actedS: forS, before, chance });
    const moves = FOLLOWING.includes(kind);
    memory.byFault.set(fault, moves ? { counts: exact, atS: forS } : before);
    counts[channel] = clampCounts(exact);
  }
  return stalls(faults, memory, counts);
}

function stalls(faults: readonly Fault[], memory: SensorMemory, counts: Counts): Counts {
  if (!faults.some(({ kind }) => kind === 'converter-stall')) {
    memory.stalled = null;
    return counts;
  }
  memory.stalled ??= counts;
  for (const channel of CHANNELS) counts[channel] = memory.stalled[channel];
  return counts;
}

const clampCounts = (counts: number): number =>
  Math.min(FULL_SCALE_COUNTS, Math.max(0, Math.round(counts)));
