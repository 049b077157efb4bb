/**
 * What of a frame may be calculated with. A count that no converter gives becomes a missing one. A
 * frame whose own time is no number tells nothing: it is taken as a spoilt message in the place of
 * a frame, so that the unit makes itself safe and no clock of the controller is lost. Boards of the
 * house send neither; a journal or another board might.
 */
import { CHANNELS, type Frame, FULL_SCALE_COUNTS, perChannel } from '../core/frame.ts';

/** `lastS` is the time of the frame before, null for the first. */
export function soundFrame(frame: Frame, lastS: number | null): Frame {
  const { timeS, sampledAtS, hostTimeS, sequence } = frame;
  if (!Number.isFinite(timeS) || !Number.isFinite(sampledAtS) || !Number.isFinite(sequence)) {
    const nowS = lastS ?? 0;
    return {
      ...frame,
      sequence: Number.isFinite(sequence) ? sequence : 0,
      timeS: nowS,
      sampledAtS: nowS,
      hostTimeS: null,
      link: 'mute',
      damaged: true,
      counts: perChannel(() => null),
    };
  }
  const hostIsSound = hostTimeS === null || Number.isFinite(hostTimeS);
  if (hostIsSound && countsAreSound(frame)) return frame;
  return {
    ...frame,
    hostTimeS: hostIsSound ? hostTimeS : null,
    counts: perChannel((channel) => soundCounts(frame.counts[channel])),
  };
}

function countsAreSound({ counts }: Frame): boolean {
  for (const channel of CHANNELS) {
    if (soundCounts(counts[channel]) !== counts[channel]) return false;
  }
  return true;
}

const soundCounts = (counts: number | null): number | null =>
  counts !== null && counts >= 0 && counts <= FULL_SCALE_COUNTS ? counts : null;
