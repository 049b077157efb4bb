/** The unit's own messages out of a stream of bytes, and into one; for tests without a host driver. */
import { openMessage, SYSEX_END, SYSEX_START, UNIT_SYSEX } from '../../../hal/firmata/protocol.ts';

export const unitMessage = (message: readonly number[]): Buffer =>
  Buffer.from([SYSEX_START, UNIT_SYSEX, ...message, SYSEX_END]);

export function createUnitListener(take: (kind: number, body: readonly number[]) => void): {
  readonly hear: (bytes: Iterable<number>) => void;
  /** Messages whose check did not match. */
  readonly spoilt: () => number;
} {
  let message: number[] = [];
  let spoilt = 0;
  return {
    hear: (bytes) => {
      for (const byte of bytes) {
        if (byte === SYSEX_START) message = [];
        else if (byte !== SYSEX_END) message.push(byte);
        else if (message[0] === UNIT_SYSEX) {
          const opened = openMessage(message.slice(1));
          if (opened.ok) take(opened.kind, opened.body);
          else spoilt++;
        }
      }
    },
    spoilt: () => spoilt,
  };
}
