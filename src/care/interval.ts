/**
 * Four states of everything that falls due, and where a count or an age stands between its limits.
 * The states are told apart by whole limits only: at the limit itself all is still as it was before.
 */

export const DUE_STATES = ['in-order', 'due-soon', 'overdue-warn', 'blocked'] as const;
export type DueState = (typeof DUE_STATES)[number];

export interface Interval {
  /** Used up to here nothing is overdue. */
  readonly every: number;
  readonly warnAhead: number;
  /** So much beyond `every` is only told; null: it never blocks. */
  readonly blockAfter: number | null;
}

export function stateOf(used: number, { every, warnAhead, blockAfter }: Interval): DueState {
  if (blockAfter !== null && used > every + blockAfter) return 'blocked';
  if (used > every) return 'overdue-warn';
  return used >= every - warnAhead ? 'due-soon' : 'in-order';
}

export const worstOf = (states: readonly DueState[]): DueState =>
  DUE_STATES.findLast((state) => states.includes(state)) ?? 'in-order';
