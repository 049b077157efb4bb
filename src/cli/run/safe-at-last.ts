/** The final step of a run: makes the board safe and closes it, whatever fails. */
import type { Board } from '../../../hal/board.ts';

/**
 * A board that can no longer be reached goes safe when its lease expires; the rest must still be
 * closed.
 */
export function makeSafeAtLast(board: Board, warn: (words: string) => void): void {
  try {
    board.makeSafe();
  } catch (error) {
    warn(`board: ${String(error)}; it makes itself safe when its lease expires`);
  }
}
