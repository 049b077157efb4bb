/**
 * What a board is, whoever builds it: the contract that the controller relies on and that
 * tests/board-contract.ts checks on every kind of board.
 *
 * Promised
 * - One frame every tick for as long as the board is open, also when nothing comes from it: then
 *   `link` is 'mute' and `sampledAtS` stays at the last sample. The first frame comes after `open`.
 * - `sequence` rises by one a frame; `timeS` never falls.
 * - `write` takes the whole set of outputs and leases it for `identity.leaseS` of board time. When
 *   it is not renewed, pump, vent and lamp go to SAFE by the board's own doing.
 * - `makeSafe` puts pump, vent and lamp to SAFE as soon as the line carries it, by the next tick at
 *   the latest, and ends the lease; the next `write` starts a new one.
 * - Protection that has tripped is listed in `trips` and holds its outputs safe until a `write` with
 *   `clearTrips` and nothing but safe outputs comes while the cause is gone.
 * - After a link is lost the board may connect again by itself. It then drives nothing by itself.
 * - `close` makes safe, completes `frames$`, and leaves no timer or handle. Closing twice is harmless.
 * - `write` after `close` throws BoardClosedError. It throws for nothing else: a value outside its
 *   range is refused by making the outputs safe, never by guessing what was meant.
 *
 * Not promised
 * - That outputs had the effect they ask for: look at the next frames.
 * - A tick's exact spacing: `timeS` says when it was. A frame may come late; none is made up.
 * - That a board protects itself against what a host asks inside its ranges, beyond the lease and
 *   the protection that `identity.protection` lists.
 * - That buttons pressed while the link is mute are ever reported.
 */
import type { Observable } from 'rxjs';
import type { Frame, Outputs, Trip } from '../src/core/frame.ts';

/** Protection that works on the board itself, without a host. */
export type Protection = 'lease' | Trip;

export interface BoardIdentity {
  /** What kind of board this is, for people: 'simulated board', for example. */
  readonly kind: string;
  /** Tells one unit from another in records. */
  readonly serial: string;
  readonly firmware: string;
  readonly tickS: number;
  readonly leaseS: number;
  readonly protection: readonly Protection[];
}

export interface Board {
  readonly identity: BoardIdentity;
  /** Hot: frames come whether or not anybody listens. Completes on close, never errors. */
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
 * Whether a board may take these outputs; when not, `write` makes safe.
 * Types do not bind what comes from outside: not a number is no ratio, a word is no switch.
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
