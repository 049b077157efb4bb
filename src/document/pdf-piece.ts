/**
 * Stacks pieces and breaks pages. Each piece knows its height before it is drawn, and none is cut.
 * `pdf-pieces.ts` decides which pieces a block has.
 */
export interface Piece {
  readonly heightPt: number;
  /** Space below, dropped at the end of a page. */
  readonly afterPt: number;
  readonly draw: (x: number, y: number) => void;
  /** A heading must not stand alone at the foot of a page. */
  readonly withNext?: boolean;
  /** Repeated where this piece begins a page: the heads of its table. */
  readonly again?: Piece;
  readonly turnsPage?: boolean;
}

export const stackHeightPt = (pieces: readonly Piece[]): number =>
  pieces.reduce((sum, { heightPt, afterPt }) => sum + heightPt + afterPt, 0);

export function drawStack(pieces: readonly Piece[], x: number, y: number): void {
  let at = y;
  for (const piece of pieces) {
    piece.draw(x, at);
    at += piece.heightPt + piece.afterPt;
  }
}

interface Sheet {
  readonly left: number;
  readonly top: number;
  readonly bottom: number;
  readonly turn: () => void;
}

export function drawFlow(pieces: readonly Piece[], { left, top, bottom, turn }: Sheet): void {
  let y = top;
  pieces.forEach((piece, index) => {
    const needed = heightWithNext(pieces, index);
    if (y > top && (piece.turnsPage === true || y + needed > bottom)) {
      turn();
      y = top;
      if (piece.again !== undefined) {
        piece.again.draw(left, y);
        y += piece.again.heightPt + piece.again.afterPt;
      }
    }
    piece.draw(left, y);
    y += piece.heightPt + piece.afterPt;
  });
}

/** A piece with everything that must stay with it. */
function heightWithNext(pieces: readonly Piece[], index: number): number {
  const piece = pieces[index];
  if (piece === undefined) return 0;
  const { heightPt, afterPt, withNext = false } = piece;
  return withNext ? heightPt + afterPt + heightWithNext(pieces, index + 1) : heightPt;
}
