/**
 * Finds answers of an intake sheet that cannot both be true. Each pair is named with both paths: a
 * person is asked again at once; a file is refused with both values. The two tables define the
 * contradictions; the schema checks ranges.
 */

import { answerAt } from '../../core/fields.ts';
import type { SettingsProblem } from '../../core/settings.ts';
import type { ConflictRow } from './conflict-row.ts';
import { DAMAGE_CONFLICTS } from './conflict-rows-damage.ts';
import { SITE_CONFLICTS } from './conflict-rows-pane.ts';
import type { IntakeSheet } from './intake-sheet.ts';

export const CONFLICT_ROWS: readonly ConflictRow[] = [...DAMAGE_CONFLICTS, ...SITE_CONFLICTS];

export interface Conflict {
  readonly paths: readonly [string, string];
  readonly why: string;
}

/** `today` as YYYY-MM-DD. */
export function conflictsOf(sheet: IntakeSheet, today: string): readonly Conflict[] {
  return CONFLICT_ROWS.filter(({ clash }) => clash(sheet, today)).map(({ between, why }) => ({
    paths: between,
    why,
  }));
}

/** The same for a file, where no one can be asked. */
export function conflictProblems(
  sheet: IntakeSheet,
  today: string,
  file: string,
): readonly SettingsProblem[] {
  const shown = (path: string): string =>
    JSON.stringify(path === 'today' ? today : answerAt(sheet, path));
  return conflictsOf(sheet, today).map(({ paths: [path, other], why }) => ({
    file,
    path,
    value: shown(path),
    accepted: `what fits ${other} (${shown(other)}): ${why}`,
  }));
}
