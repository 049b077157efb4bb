/** The speed of a board's time relative to the wall clock. */

const SMALL = 10;

export function speedWords(boardS: number, wallS: number): string {
  const times = boardS / wallS;
  return `${(boardS / 60).toFixed(1)} min of board time in ${wallS.toFixed(1)} s (${times.toFixed(times < SMALL ? 1 : 0)} x real time)`;
}
