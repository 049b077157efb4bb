/** The last thing that a run does with its board, whatever became of either. */
import type { Board } from '../../../hal/board.ts';

/** A board that can no longer be told goes safe by its own lease; the rest must still be closed. */
export function makeSafeAtLast(board: Board, warn: (words: string) => void): void {
  try {
    board.makeSafe();
  } catch (error) {
    warn(`board: ${String(error)}; it makes itself safe when it is not told to go on`);
  }
}
