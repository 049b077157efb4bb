/**
 * Converts counts to readings. It takes the median of the last three samples, so that one bad
 * sample moves nothing, and turns any value that cannot be believed into a fault instead of a
 * number. A channel is stale when its sample is old. It is out of range when no sound sensor could
 * report it. It is implausible when its count stays frozen while the unit's actions must at least
 * show noise. The alarms decide what follows from a fault.
 */
import {
  type Actuators,
  CHANNEL_ROWS,
  CHANNELS,
  type Channel,
  type ChannelFault,
  type Frame,
  type Measured,
  perChannel,
  type Reading,
  type ReadingKey,
  type Readings,
} from '../core/frame.ts';
import { type ChannelSettings, TRANSFERS, type Transfer } from './channels.ts';

interface ChannelMemory {
  /** The last three counts; null while there are fewer. */
  readonly latest: number | null;
  readonly before: number | null;
  readonly earlier: number | null;
  /** Time since which the count has not changed although it should have. */
  readonly frozenSinceS: number;
}

export interface SignalMemory {
  readonly sampledAtS: number;
  readonly channels: Readonly<Record<Channel, ChannelMemory>>;
}

const FRESH: ChannelMemory = {
  latest: null,
  before: null,
  earlier: null,
  frozenSinceS: Number.NEGATIVE_INFINITY,
};

export const INITIAL_SIGNAL_MEMORY: SignalMemory = {
  sampledAtS: Number.NEGATIVE_INFINITY,
  channels: perChannel(() => FRESH),
};

/** The light sensor's latest counts; null when none was ever taken. */
export const lightCountsOf = ({ channels }: SignalMemory): number | null =>
  channels.irradiance.latest;

/** Advances the memory by one frame and reads it; `commanded` are the last tick's outputs. */
export function stepDecode(
  memory: SignalMemory,
  frame: Frame,
  commanded: Actuators,
  settings: ChannelSettings,
): { readonly memory: SignalMemory; readonly reading: Reading } {
  const next = remember(memory, frame, commanded, settings);
  return {
    memory: next,
    reading: {
      sequence: frame.sequence,
      timeS: frame.timeS,
      hostTimeS: frame.hostTimeS,
      link: frame.link,
      switches: frame.switches,
      pressed: frame.pressed,
      ladder: frame.ladder,
      trips: frame.trips,
      damaged: frame.damaged,
      gap: frame.gap,
      // Last, because V8 is thirty times as slow when fields are added after a spread.
      ...readingsOf(frame, next, settings),
    },
  };
}

function readingsOf(frame: Frame, { channels }: SignalMemory, settings: ChannelSettings): Readings {
  const readings = {} as Record<ReadingKey, Measured>;
  for (const channel of CHANNELS) {
    readings[CHANNEL_ROWS[channel].reading] = measured(
      frame,
      channels[channel],
      TRANSFERS[channel],
      settings,
    );
  }
  return readings;
}

function remember(
  memory: SignalMemory,
  frame: Frame,
  commanded: Actuators,
  settings: ChannelSettings,
): SignalMemory {
  if (frame.sampledAtS <= memory.sampledAtS) return memory;
  return {
    sampledAtS: frame.sampledAtS,
    channels: perChannel((channel) =>
      advance(memory.channels[channel], channel, frame, commanded, settings),
    ),
  };
}

function advance(
  { latest, before, frozenSinceS }: ChannelMemory,
  channel: Channel,
  { counts: all, sampledAtS }: Frame,
  commanded: Actuators,
  { frozenAfterS }: ChannelSettings,
): ChannelMemory {
  const counts = all[channel];
  if (counts === null) return FRESH;
  const moved = counts !== latest;
  // A frozen channel stays frozen until its count moves. It may have made the unit safe, so that it
  // no longer needs to move; that proves nothing.
  const found = sampledAtS - frozenSinceS > frozenAfterS;
  const excused = !found && !TRANSFERS[channel].mustMove(commanded);
  return {
    latest: counts,
    before: latest,
    earlier: before,
    frozenSinceS: moved || excused ? sampledAtS : frozenSinceS,
  };
}

function measured(
  frame: Frame,
  memory: ChannelMemory,
  { read }: Transfer,
  settings: ChannelSettings,
): Measured {
  const counts = middle(memory);
  if (counts === null) return fault('missing');
  if (frame.timeS - frame.sampledAtS > settings.staleAfterS) return fault('stale');
  const value = read(counts, settings);
  if (value === null || !Number.isFinite(value)) return fault('out-of-range');
  if (frame.sampledAtS - memory.frozenSinceS > settings.frozenAfterS) return fault('implausible');
  return { ok: true, value, takenAtS: frame.sampledAtS };
}

const fault = (kind: ChannelFault): Measured => ({ ok: false, fault: kind });

/** The median of the last three counts, or the latest while there are fewer. */
function middle({ latest, before, earlier }: ChannelMemory): number | null {
  if (latest === null || before === null || earlier === null) return latest;
  const [low, high] = before < latest ? [before, latest] : [latest, before];
  return Math.max(low, Math.min(high, earlier));
}
