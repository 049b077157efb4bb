/**
 * Detects inches where millimetres belong: values smaller than the real thing ever is, but ordinary
 * as inches. A person is asked "did you mean". A file is refused, because a pane 25 times too small
 * would silently put every zone in the wrong place.
 */

import { answerAt } from '../../core/fields.ts';
import type { SettingsProblem } from '../../core/settings.ts';

const MM_PER_INCH = 25.4;

export interface UsualSize {
  readonly path: string;
  /** No real one is smaller; our own judgement, deliberately wide. */
  readonly leastMm: number;
  readonly mostMm: number;
}

export const USUAL_SIZES: readonly UsualSize[] = [
  { path: 'pane.widthMm', leastMm: 300, mostMm: 3500 },
  { path: 'pane.heightMm', leastMm: 200, mostMm: 2500 },
  { path: 'pane.wheelCentreMm', leastMm: 100, mostMm: 3000 },
  { path: 'pane.seatCentreMm', leastMm: 100, mostMm: 3000 },
  { path: 'damage.diameterMm', leastMm: 1.5, mostMm: 40 },
  { path: 'damage.longestLegMm', leastMm: 1, mostMm: 25.4 },
  { path: 'damage.pitMm', leastMm: 0.25, mostMm: 6.4 },
  { path: 'damage.depthMm', leastMm: 0.1, mostMm: 2.6 },
];

function mmFromInches(inches: number): number {
  return Math.round(inches * MM_PER_INCH * 10) / 10;
}

/** The probable value, or null where the number may well be millimetres. */
export function meantMm(path: string, value: unknown): number | null {
  const usual = USUAL_SIZES.find((size) => size.path === path);
  if (usual === undefined || typeof value !== 'number' || value <= 0) return null;
  const mm = mmFromInches(value);
  return value < usual.leastMm && mm >= usual.leastMm && mm <= usual.mostMm ? mm : null;
}

/** Works on the raw file, because most such values are also outside the schema's range. */
export function inchProblems(raw: unknown, file: string): readonly SettingsProblem[] {
  return USUAL_SIZES.flatMap(({ path }) => {
    const value = answerAt(raw, path);
    const mm = meantMm(path, value);
    if (mm === null) return [];
    const accepted = `millimetres: this looks like inches, did you mean ${mm}?`;
    return [{ file, path, value: JSON.stringify(value), accepted }];
  });
}
