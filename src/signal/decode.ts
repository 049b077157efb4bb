/**
 * Counts to readings: takes the middle of the last three samples, so that one bad sample moves
 * nothing, and turns whatever cannot be believed into a fault instead of a number. A channel is
 * stale when its sample is old, out of range when no sound sensor could say it, and implausible when
 * it stays frozen to the very count while the unit is doing something that must at least show noise.
 * What follows from a fault is left to the alarms.
 */
import type { Actuators, Channel, ChannelFault, Frame, Measured, Reading } from '../frame.ts';
import {
  type ChannelSettings,
  irradianceWPerM2Of,
  pressurePaOf,
  supplyVOf,
  thermistorKOf,
} from './channels.ts';

interface ChannelMemory {
  /** Up to three latest counts, oldest first. */
  readonly recent: readonly number[];
  /** Since when the count has not changed while it should have. */
  readonly frozenSinceS: number;
}

export interface SignalMemory {
  readonly sampledAtS: number;
  readonly channels: Readonly<Record<Channel, ChannelMemory>>;
}

const FRESH: ChannelMemory = { recent: [], frozenSinceS: Number.NEGATIVE_INFINITY };

export const INITIAL_SIGNAL_MEMORY: SignalMemory = {
  sampledAtS: Number.NEGATIVE_INFINITY,
  channels: {
    pressure: FRESH,
    irradiance: FRESH,
    glassTemperature: FRESH,
    heatSinkTemperature: FRESH,
    supplyVoltage: FRESH,
  },
};

/** Advances the memory by one frame and reads it; `commanded` is what the last tick asked for. */
export function stepDecode(
  memory: SignalMemory,
  frame: Frame,
  commanded: Actuators,
  settings: ChannelSettings,
): { readonly memory: SignalMemory; readonly reading: Reading } {
  const next = remember(memory, frame, commanded, settings);
  const read = (channel: Channel, convert: Convert): Measured =>
    measured(frame, next.channels[channel], convert, settings);
  return {
    memory: next,
    reading: {
      sequence: frame.sequence,
      timeS: frame.timeS,
      link: frame.link,
      pressurePa: read('pressure', pressurePaOf),
      irradianceWPerM2: read('irradiance', irradianceWPerM2Of),
      glassK: read('glassTemperature', thermistorKOf),
      heatSinkK: read('heatSinkTemperature', thermistorKOf),
      supplyV: read('supplyVoltage', supplyVOf),
      switches: frame.switches,
      pressed: frame.pressed,
    },
  };
}

type Convert = (counts: number, settings: ChannelSettings) => number | null;

/**
 * Which channels must show noise now: pressure while the chamber is closed, light while the lamp
 * burns. Elsewhere a count may rest for minutes with nothing wrong, so nothing is concluded.
 */
function mustMove(channel: Channel, commanded: Actuators): boolean {
  if (channel === 'pressure') return !commanded.ventOpen;
  if (channel === 'irradiance') return commanded.lampEnabled && commanded.lampRatio > 0;
  return false;
}

function remember(
  memory: SignalMemory,
  frame: Frame,
  commanded: Actuators,
  { frozenAfterS }: ChannelSettings,
): SignalMemory {
  if (frame.sampledAtS <= memory.sampledAtS) return memory;
  const advance = (channel: Channel): ChannelMemory => {
    const counts = frame.counts[channel];
    if (counts === null) return FRESH;
    const { recent, frozenSinceS } = memory.channels[channel];
    const moved = counts !== recent.at(-1);
    // A channel found frozen stays so until its count moves: that it made the unit safe, and so
    // need not move any more, proves nothing.
    const found = frame.sampledAtS - frozenSinceS > frozenAfterS;
    const excused = !found && !mustMove(channel, commanded);
    return {
      recent: [...recent.slice(-2), counts],
      frozenSinceS: moved || excused ? frame.sampledAtS : frozenSinceS,
    };
  };
  return {
    sampledAtS: frame.sampledAtS,
    channels: {
      pressure: advance('pressure'),
      irradiance: advance('irradiance'),
      glassTemperature: advance('glassTemperature'),
      heatSinkTemperature: advance('heatSinkTemperature'),
      supplyVoltage: advance('supplyVoltage'),
    },
  };
}

function measured(
  frame: Frame,
  { recent, frozenSinceS }: ChannelMemory,
  convert: Convert,
  settings: ChannelSettings,
): Measured {
  const counts = middle(recent);
  if (counts === null) return fault('missing');
  if (frame.timeS - frame.sampledAtS > settings.staleAfterS) return fault('stale');
  const value = convert(counts, settings);
  if (value === null || !Number.isFinite(value)) return fault('out-of-range');
  if (frame.sampledAtS - frozenSinceS > settings.frozenAfterS) return fault('implausible');
  return { ok: true, value, takenAtS: frame.sampledAtS };
}

const fault = (kind: ChannelFault): Measured => ({ ok: false, fault: kind });

function middle(recent: readonly number[]): number | null {
  const [a, b, c] = recent;
  if (a === undefined) return null;
  if (b === undefined || c === undefined) return recent.at(-1) ?? null;
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
}
