/**
 * What a run saw after its outputs went safe. A command that the lamp be off shows nothing: only a
 * sample taken after it does. The frames after the end of a job belong to no journal.
 */

import type { Subscription } from 'rxjs';
import type { Board } from '../../../hal/board.ts';
import type { JobWords } from '../../app/prepare/terminal-words.ts';
import { SAFE, valueOrNull } from '../../core/frame.ts';
import { filled } from '../../core/phrases.ts';
import { kPaFromPa, mWPerCm2FromWPerM2 } from '../../core/units.ts';
import type { ChannelSettings } from '../../signal/channels.ts';
import { type SignalMemory, stepDecode } from '../../signal/decode.ts';
import { makeSafeAtLast } from './safe-at-last.ts';

export interface SeenSafe {
  /** From the first frame after the outputs went safe to the sample, s. */
  readonly afterS: number;
  /** Null where the sensor gave nothing that could be believed. */
  readonly lightWPerM2: number | null;
  readonly pressurePa: number | null;
}

/** A reading is the median of three samples, which are new by then; the lamp is dark long before. */
const SETTLES_S = 0.3;
/** A mute board samples nothing: no longer than this is waited for it. */
const LONGEST_S = 1;

export interface SafeWatch {
  /** Makes the board safe and calls `seen` once something was seen, or nothing came. */
  readonly begin: (memory: SignalMemory, seen: () => void) => void;
  readonly close: () => void;
  readonly result: () => SeenSafe | null;
}

export function createSafeWatch(board: Board, channels: ChannelSettings): SafeWatch {
  let subscription: Subscription | null = null;
  let result: SeenSafe | null = null;
  return {
    begin: (from, seen) => {
      let memory = from;
      let sinceS: number | null = null;
      makeSafeAtLast(board, () => undefined);
      subscription = board.frames$.subscribe((frame) => {
        sinceS ??= frame.timeS;
        const step = stepDecode(memory, frame, SAFE, channels);
        memory = step.memory;
        const afterS = frame.sampledAtS - sinceS;
        if (afterS >= SETTLES_S) {
          const { irradianceWPerM2, pressurePa } = step.reading;
          result = {
            afterS,
            lightWPerM2: valueOrNull(irradianceWPerM2),
            pressurePa: valueOrNull(pressurePa),
          };
        }
        if (result === null && frame.timeS - sinceS < LONGEST_S) return;
        subscription?.unsubscribe();
        seen();
      });
    },
    close: () => subscription?.unsubscribe(),
    result: () => result,
  };
}

/** For the end of a run. */
export function seenSafeWords(
  seen: SeenSafe | null,
  { terminal: { closing }, tongue }: JobWords,
): string {
  if (seen === null) return closing.unseen;
  const { afterS, lightWPerM2, pressurePa } = seen;
  const light =
    lightWPerM2 === null
      ? closing.notKnown
      : tongue.figure(`${mWPerCm2FromWPerM2(lightWPerM2).toFixed(1)} mW/cm2`);
  const pressure =
    pressurePa === null
      ? closing.notKnown
      : tongue.figure(`${kPaFromPa(pressurePa).toFixed(1)} kPa abs`);
  return filled(closing.seen, { after: tongue.figure(afterS.toFixed(1)), light, pressure });
}
