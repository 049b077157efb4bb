/**
 * The session in which a procedure runs, on any kind of board: the board, the passing of its time,
 * and the keys and views of the person. `open-session.ts` makes one; `run-procedure.ts` uses it.
 */
import type { Board } from '../../../hal/board.ts';
import type { JobWords, PanelWords } from '../../app/prepare/terminal-words.ts';
import type { DisplayLines, Request } from '../../core/frame.ts';
import type { KeyAction, KeySet } from '../terminal/keys.ts';
import type { Pacer } from './pace.ts';

export interface Session {
  readonly board: Board;
  /** Title of the panel. */
  readonly title: (words: JobWords) => string;
  readonly keys: KeySet;
  readonly keyboard: NodeJS.ReadStream | null;
  /** Top end of the panel's pressure bar. */
  readonly atmospherePa: number;
  /** For the journal's header. */
  readonly seed: number | null;
  readonly startedAt: string;
  readonly extra: Readonly<Record<string, unknown>>;
  /** Lets the board's time pass until stopped. */
  readonly run: () => Pacer;
  /** Handles a key; a request to the controller goes to `request`. */
  readonly act: (key: KeyAction, request: (request: Request) => void) => void;
  /** The view through the glass, in words; null where it is not known. */
  readonly look: (words: PanelWords) => string | null;
  /** A scripted person who reads the display once a tick and presses buttons; absent where there is none. */
  readonly person?: (timeS: number, display: DisplayLines) => void;
  /** Value of a reference instrument, in the unit of the display; null where there is none. */
  readonly reference?: () => number | null;
}

export type OpenedSession =
  | { readonly ok: true; readonly session: Session }
  /** What is wrong, and what to do or what is accepted, one line each. */
  | { readonly ok: false; readonly lines: readonly string[] };
