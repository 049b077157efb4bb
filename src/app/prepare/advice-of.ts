/**
 * Assembles advice from files: intake sheet, bottles of resin, advice rules, and the unit's
 * settings for pump and heating. `src/intake/` decides the advice. The resulting profile is checked
 * here like any other, against the schema and the unit, before it is recommended.
 */

import { profileOverLimits, type UnitSettings } from '../../control/unit-settings.ts';
import { type Checked, checkSettings } from '../../core/settings.ts';
import { type Advice, advise } from '../../intake/advice/advice.ts';
import { adviceRulesSchema } from '../../intake/advice/advice-rules.ts';
import type { IntakeSheet } from '../../intake/sheet/intake-sheet.ts';
import { deepestPa } from '../../procedure/altitude.ts';
import { profileSchema } from '../../procedure/profile.ts';
import builtInAdvice from '../defaults/advice.json' with { type: 'json' };
import { type Bottle, readBottle } from './job-bottle.ts';
import { readChecked } from './read-settings.ts';

export function readBottles(files: readonly string[]): Checked<readonly Bottle[]> {
  const read = files.map(readBottle);
  const problems = read.flatMap((one) => (one.ok ? [] : one.problems));
  if (problems.length > 0) return { ok: false, problems };
  return { ok: true, value: read.flatMap((one) => (one.ok ? [one.value] : [])) };
}

export interface AdviceFiles {
  readonly sheet: IntakeSheet;
  readonly bottles: readonly Bottle[];
  readonly unit: UnitSettings;
  readonly today: string;
  /** By the assessment of this sheet. */
  readonly permitted: boolean;
  /** A shop's own advice rules; the built-in ones where none is named. */
  readonly rules?: string | undefined;
}

export function adviceOf(files: AdviceFiles): Checked<Advice> {
  const { sheet, bottles, unit, today, permitted, rules } = files;
  const builtIn = { name: 'built-in advice.json', content: builtInAdvice };
  const read = readChecked(adviceRulesSchema, rules ?? builtIn);
  if (!read.ok) return read;
  const advice = advise({
    sheet,
    rules: read.value.settings,
    resins: bottles.map(({ resin }) => resin),
    today,
    permitted,
    deepestPa: (atmospherePa) => deepestPa(atmospherePa, unit.pump.greatestRatio),
    heatingKPerS: unit.heating.own.rateKPerS,
    lampPeakNm: unit.lampPeakNm,
    spotRadiusM: unit.lightPath?.spotRadiusM ?? null,
  });
  if (advice.profile === null) return { ok: true, value: advice };
  const where = `${read.value.file}: the profile that follows from it`;
  const profile = checkSettings(profileSchema, advice.profile.file, where);
  if (!profile.ok) return profile;
  const over = profileOverLimits(profile.value, unit, where);
  return over.length > 0 ? { ok: false, problems: over } : { ok: true, value: advice };
}
