/** Every outside check is a test whose title says what is expected, how closely, and from where. */
import { describe, expect, test } from 'vitest';
import { ALL_GROUPS } from './all-groups.ts';
import { type CheckRow, holds } from './check.ts';

const titleOf = ({ what, expected, tolerance, unit, source, obtained }: CheckRow): string =>
  `${what}: ${expected} ± ${tolerance} ${unit} (${source}; ${obtained})`;

for (const { title, rows } of ALL_GROUPS) {
  describe(title, () => {
    for (const row of rows) {
      test(titleOf(row), () => {
        const actual = row.actual();
        const verdict = `${actual} ${row.unit}`;
        if (row.misses === undefined) {
          expect(holds(row, actual), `${verdict}, expected ${row.expected}`).toBe(true);
        } else expect(holds(row, actual), `${verdict} no longer misses: ${row.misses}`).toBe(false);
      });
    }
  });
}
