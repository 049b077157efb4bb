/**
 * Changes that no test kills, and why. `equivalent`: nothing that a pin, a message or memory shows
 * differs. `timing`: only how soon something harmless happens. `silicon`: only a real chip shows it.
 */
export interface Accepted {
  readonly file: string;
  /** The source line, without its indentation. */
  readonly code: string;
  readonly changes: readonly string[];
  readonly kind: 'equivalent' | 'timing' | 'silicon';
  readonly reason: string;
}

export const REMAINING: readonly Accepted[] = [];
