/**
 * The contract of every kind of board. The controller relies on it, and tests/board-contract.ts
 * checks it on each kind.
 *
 * Promised
 * - One frame every tick for as long as the board is open, even when the board sends nothing: then
 *   `link` is 'mute' and `sampledAtS` stays at the last sample. The first frame comes after `open`.
 * - `sequence` rises by one per frame; `timeS` never falls.
 * - `write` takes the complete set of outputs and leases it for `identity.leaseS` of board time.
 *   Unless the lease is renewed, the board itself puts pump, vent and lamp to SAFE.
 * - `makeSafe` puts pump, vent and lamp to SAFE as soon as the line carries it, by the next tick at
 *   the latest, and ends the lease; the next `write` starts a new one.
 * - Tripped protection is listed in `trips`. It holds its outputs safe until a `write` with
 *   `clearTrips` and only safe outputs arrives while the cause is gone.
 * - After a lost link the board may reconnect by itself. It then drives nothing by itself.
 * - `close` makes safe, completes `frames$`, and leaves no timer or handle. Closing twice is
 *   harmless.
 * - `write` after `close` throws BoardClosedError. It throws for nothing else: a value outside its
 *   range makes the outputs safe, and its intent is never guessed.
 *
 * Not promised
 * - That outputs have the effect they ask for: check the next frames.
 * - Exact spacing of ticks: `timeS` gives the actual time. A frame may come late; none is made up.
 * - That a board protects itself against requests inside the ranges, beyond the lease and the
 *   protection that `identity.protection` lists.
 * - That buttons pressed while the link is mute are ever reported.
 */
import type { Observable } from 'rxjs';
import type { Frame, Outputs, Trip } from '../src/core/frame.ts';

/** Protection that works on the board itself, without a host. */
export type Protection = 'lease' | Trip;

export interface BoardIdentity {
  /** The kind of board, for people: 'simulated board', for example. */
  readonly kind: string;
  /** Distinguishes one unit from another in records. */
  readonly serial: string;
  readonly firmware: string;
  readonly tickS: number;
  readonly leaseS: number;
  readonly protection: readonly Protection[];
}

export interface Board {
  readonly identity: BoardIdentity;
  /** Hot: frames come with or without listeners. Completes on close, never errors. */
  readonly frames$: Observable<Frame>;
  readonly write: (outputs: Outputs) => void;
  readonly makeSafe: () => void;
  readonly close: () => Promise<void>;
}

export class BoardClosedError extends Error {
  override name = 'BoardClosedError';
  constructor() {
    super('The board is closed: open it again before writing outputs.');
  }
}

/**
 * Whether a board may take these outputs; if not, `write` makes safe. Types do not constrain data
 * from outside: NaN is not a valid ratio, and only a boolean is a valid switch.
 */
export function isSound({
  pumpRatio,
  selector,
  ventOpen,
  lampEnabled,
  lampRatio,
}: Outputs): boolean {
  const isRatio = (value: number): boolean => value >= 0 && value <= 1;
  const isSwitch = (value: unknown): boolean => value === true || value === false;
  return (
    isRatio(pumpRatio) &&
    isRatio(lampRatio) &&
    isSwitch(ventOpen) &&
    isSwitch(lampEnabled) &&
    (selector === 'vacuum' || selector === 'pressure')
  );
}
