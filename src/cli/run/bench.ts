/**
 * What a job runs on, whichever kind of board it is: the board, how its time passes, and what keys
 * and eyes reach. Made by `open-bench.ts`; used by `run-procedure.ts`.
 */
import type { Board } from '../../../hal/board.ts';
import type { DisplayLines, Request } from '../../core/frame.ts';
import type { KeyAction } from '../terminal/keys.ts';
import type { Pacer } from './pace.ts';

export interface Bench {
  readonly board: Board;
  /** Heads the panel. */
  readonly title: string;
  readonly keysLine: string;
  readonly keyboard: NodeJS.ReadStream | null;
  /** Top end of the panel's pressure bar. */
  readonly atmospherePa: number;
  /** For the journal's header. */
  readonly seed: number | null;
  readonly startedAt: string;
  readonly extra: Readonly<Record<string, unknown>>;
  /** Lets the board's time pass until stopped. */
  readonly run: () => Pacer;
  /** A key that stands for something at the bench; what it asks of the controller goes to `request`. */
  readonly act: (key: KeyAction, request: (request: Request) => void) => void;
  /** What somebody looking through the glass would say; null where nobody knows. */
  readonly look: () => string | null;
  /** A scripted person who reads the display once a tick and presses; absent where there is none. */
  readonly person?: (timeS: number, display: DisplayLines) => void;
  /** What a reference instrument on the bench shows, in the unit of the display; null where nothing. */
  readonly reference?: () => number | null;
}

export type OpenedBench =
  | { readonly ok: true; readonly bench: Bench }
  /** What is wrong, and what to do or what is accepted, a line each. */
  | { readonly ok: false; readonly lines: readonly string[] };
