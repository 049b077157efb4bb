/**
 * Several damages on one pane, each with a sheet of its own. They share vehicle, pane, rules and day;
 * their distances follow from their positions, rim to rim, and are what rules on spacing compare.
 */
import { canonicalJson } from '../../core/canonical-json.ts';
import { type Checked, type SettingsProblem, valueAt } from '../../core/settings.ts';
import { footprintOf } from './footprint.ts';
import type { IntakeSheet, Unknown } from './intake-sheet.ts';

export interface Neighbour {
  readonly file: string;
  readonly sheet: IntakeSheet;
  /** Repaired already, or another damage still. */
  readonly repaired: boolean;
}

const MUST_MATCH = ['vehicle', 'pane'] as const;
const SHARED = [...MUST_MATCH, 'ruleSets', 'lookedOn', 'conditions'] as const;
/** A stated distance may be measured by hand: a millimetre is no contradiction. */
const BY_HAND_MM = 1;

/** Rim to rim, 0 where they touch; unknown where a position or size is. */
export function gapBetweenMm(one: IntakeSheet, other: IntakeSheet): number | Unknown {
  const [a, b] = [footprintOf(one), footprintOf(other)];
  const values = [a.xMm, a.yMm, a.radiusMm, b.xMm, b.yMm, b.radiusMm];
  if (values.includes('unknown')) return 'unknown';
  const [ax = 0, ay = 0, ar = 0, bx = 0, by = 0, br = 0] = values.map(Number);
  return Math.max(0, Math.round((Math.hypot(ax - bx, ay - by) - ar - br) * 10) / 10);
}

/** What the sheet leaves out is taken from the first neighbour; what it states must be the same. */
export function sharedWith(
  raw: unknown,
  file: string,
  neighbours: readonly Neighbour[],
): Checked<unknown> {
  const [first] = neighbours;
  if (first === undefined) return { ok: true, value: raw };
  const problems = neighbours.flatMap((one) => contradictions(raw, file, one));
  if (problems.length > 0) return { ok: false, problems };
  const shared = Object.fromEntries(SHARED.map((field) => [field, first.sheet[field]]));
  return { ok: true, value: { ...shared, ...(raw as object) } };
}

/** Every answer that is stated; what is left out is the other's. */
const agrees = (own: unknown, other: object): boolean =>
  Object.entries(own ?? {}).every(
    ([field, answer]) => canonicalJson(answer) === canonicalJson(valueAt(other, [field]) ?? null),
  );

function contradictions(
  raw: unknown,
  file: string,
  { file: other, sheet }: Neighbour,
): readonly SettingsProblem[] {
  const problem = (path: string, accepted: string): SettingsProblem => {
    const value = JSON.stringify(valueAt(raw, [path]));
    return { file, path, value, accepted };
  };
  const differing = MUST_MATCH.filter((field) => {
    const own = valueAt(raw, [field]);
    return own !== undefined && !agrees(own, sheet[field]);
  });
  return [
    ...(valueAt(raw, ['reference']) === sheet.reference
      ? [problem('reference', `a reference of its own: ${other} has this one`)]
      : []),
    ...differing.map((field) =>
      problem(field, `${JSON.stringify(sheet[field])}, as ${other} states for the same pane`),
    ),
  ];
}

/** The neighbours, and those that they name: a damage names those that were looked at before it. */
export const othersOfPane = (
  { reference, samePane }: Pick<IntakeSheet, 'reference' | 'samePane'>,
  neighbours: readonly Neighbour[],
): readonly string[] => {
  const named = neighbours.flatMap(({ sheet }) => [sheet.reference, ...sheet.samePane]);
  return [...new Set([...samePane, ...named])].filter((other) => other !== reference);
};

/** The sheet's distances, from the positions; a stated one may be shorter, never longer. */
export function spacedFrom(
  sheet: IntakeSheet,
  file: string,
  neighbours: readonly Neighbour[],
): Checked<IntakeSheet['place']> {
  const nearest = (repaired: boolean): number | Unknown | null => {
    const gaps = neighbours
      .filter((one) => one.repaired === repaired)
      .map((one) => gapBetweenMm(sheet, one.sheet));
    if (gaps.length === 0) return null;
    return gaps.includes('unknown') ? 'unknown' : Math.min(...gaps.map(Number));
  };
  const problems: SettingsProblem[] = [];
  const settled = (path: 'otherDamageMm' | 'earlierRepairMm', found: number | Unknown | null) => {
    const stated = sheet.place[path];
    if (found === null || found === 'unknown') return found === null ? stated : 'unknown';
    if (stated === 'unknown') return found;
    if (stated !== null && stated <= found + BY_HAND_MM) return Math.min(stated, found);
    problems.push({
      file,
      path: `place.${path}`,
      value: JSON.stringify(stated),
      accepted: `at most ${found} mm, as the positions of both damages give, or "unknown"`,
    });
    return found;
  };
  const place = {
    ...sheet.place,
    otherDamageMm: settled('otherDamageMm', nearest(false)),
    earlierRepairMm: settled('earlierRepairMm', nearest(true)),
  };
  return problems.length > 0 ? { ok: false, problems } : { ok: true, value: place };
}
