/** Exit codes of the process, by reason. */
import type { EndReason } from '../../core/events.ts';

export const EXIT = {
  completed: 0,
  fault: 1,
  badInput: 2,
  'stopped-by-person': 3,
  alarm: 4,
  /** The shell convention for Ctrl-C: 128 plus the number of SIGINT. */
  interrupted: 130,
} as const satisfies Record<EndReason | 'badInput', number>;
