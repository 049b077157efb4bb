/**
 * The four states of everything that falls due, and where a count or an age stands between its
 * limits. A state changes only beyond its limit: at the limit itself the previous state still
 * holds.
 */

export const DUE_STATES = ['in-order', 'due-soon', 'overdue-warn', 'blocked'] as const;
export type DueState = (typeof DUE_STATES)[number];

export interface Interval {
  /** Up to here nothing is overdue. */
  readonly every: number;
  readonly warnAhead: number;
  /** Overuse up to this much beyond `every` only warns; null: it never blocks. */
  readonly blockAfter: number | null;
}

export function stateOf(used: number, { every, warnAhead, blockAfter }: Interval): DueState {
  if (blockAfter !== null && used > every + blockAfter) return 'blocked';
  if (used > every) return 'overdue-warn';
  return used >= every - warnAhead ? 'due-soon' : 'in-order';
}

export const worstOf = (states: readonly DueState[]): DueState =>
  DUE_STATES.findLast((state) => states.includes(state)) ?? 'in-order';
