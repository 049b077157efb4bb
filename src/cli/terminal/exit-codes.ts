/** What the process says to its caller when it ends, by reason. */
import type { EndReason } from '../../core/events.ts';

export const EXIT = {
  completed: 0,
  fault: 1,
  badInput: 2,
  'stopped-by-person': 3,
  alarm: 4,
  /** As shells count a Ctrl-C: 128 and the number of SIGINT. */
  interrupted: 130,
} as const satisfies Record<EndReason | 'badInput', number>;
