/**
 * Outside checks as rows: what is expected, how closely the source lets it be known, and where it
 * comes from. Each row is one test whose title says all of that.
 */
import { describe, expect, test } from 'vitest';

export interface CheckRow {
  readonly what: string;
  readonly actual: () => number;
  readonly expected: number;
  /** From the source's own precision, never from what makes the row pass. */
  readonly tolerance: number;
  readonly unit: string;
  readonly source: string;
  /** How the expected value was obtained. */
  readonly obtained: 'seen' | 'seen second-hand' | 'computed' | 'from memory';
}

export function checkRows(group: string, rows: readonly CheckRow[]): void {
  describe(group, () => {
    for (const { what, actual, expected, tolerance, unit, source, obtained } of rows) {
      const title = `${what}: ${expected} ± ${tolerance} ${unit} (${source}; ${obtained})`;
      test(title, () => {
        expect(Math.abs(actual() - expected)).toBeLessThanOrEqual(tolerance);
      });
    }
  });
}
