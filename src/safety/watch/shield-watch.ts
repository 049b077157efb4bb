/**
 * Whether the shield's contact has been seen to move: open before each cure, after the light of the
 * one before it. A contact that is shorted reads closed for ever, and only a contact that was seen
 * open is believed when it reads closed. The guard keeps the lamp off until then, and the alarm
 * table says what a person must do.
 */

export interface ShieldSeen {
  readonly timeS: number;
  /** False, too, while the board is mute. */
  readonly open: boolean;
  readonly lampOn: boolean;
  /** A person works at the glass, with the cure over or not yet begun. */
  readonly handWork: boolean;
}

export interface ShieldWatch {
  /** How long it has been open without a break, s. */
  readonly openForS: number;
  /** Board time at which it was seen open last; null where the next cure still needs it. */
  readonly seenOpenAtS: number | null;
  /** The lamp has burnt since then. */
  readonly lit: boolean;
}

export const SHIELD_START: ShieldWatch = { openForS: 0, seenOpenAtS: null, lit: false };

/** Several frames, so that one spoilt sample is no proof. */
const SEEN_S = 0.2;

export function stepShield(watch: ShieldWatch, seen: ShieldSeen, gapS: number): ShieldWatch {
  const { timeS, open, lampOn, handWork } = seen;
  if (!open) {
    const { seenOpenAtS, lit } = watch;
    if (lit && handWork) return SHIELD_START;
    if (watch.openForS === 0 && (lit || !lampOn)) return watch;
    return { openForS: 0, seenOpenAtS, lit: lit || lampOn };
  }
  const openForS = watch.openForS + gapS;
  const isSeen = openForS >= SEEN_S;
  return {
    openForS,
    seenOpenAtS: isSeen ? timeS : watch.seenOpenAtS,
    lit: isSeen ? false : watch.lit || lampOn,
  };
}
