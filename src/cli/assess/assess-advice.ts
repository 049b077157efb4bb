/**
 * Advice with an assessment: what to do first, which bottle, which profile, and the two files that
 * `meniscus run` takes, made from the sheet. Where the rules do not allow a repair, or it is not
 * feasible, there is no advice, so that no file looks like a job.
 */

import builtInUnit from '../../app/defaults/unit.json' with { type: 'json' };
import { adviceOf, readBottles } from '../../app/prepare/advice-of.ts';
import type { Assessed } from '../../app/prepare/assessment-page.ts';
import { type Bottle, statedResin } from '../../app/prepare/job-bottle.ts';
import { readChecked } from '../../app/prepare/read-settings.ts';
import { unitSettingsSchema } from '../../control/unit-settings.ts';
import type { Checked } from '../../core/settings.ts';
import type { Advice } from '../../intake/advice/advice.ts';
import type { IntakeSheet } from '../../intake/sheet/intake-sheet.ts';

export interface AdviceAsked {
  /** Files of the bottles at hand. */
  readonly resin: readonly string[];
  readonly unit?: string;
  /** A shop's own advice rules. */
  readonly adviceRules?: string;
  readonly technician?: string;
  /** The vehicle's plate, or another reference to it. */
  readonly vehicle?: string;
  readonly customer?: string;
}

export interface JobFiles {
  readonly advice: Advice;
  /** Contents by file name. */
  readonly files: Readonly<Record<string, unknown>>;
  /** Why a file is missing. */
  readonly notes: readonly string[];
}

/** Null where nothing is advised. */
export function assessAdvice(
  { assessment, sheet }: Assessed,
  asked: AdviceAsked,
  today: string,
): Checked<JobFiles | null> {
  if (assessment.answer === 'not-allowed-here' || assessment.technical.answer === 'cannot') {
    return { ok: true, value: null };
  }
  const unit = readChecked(
    unitSettingsSchema,
    asked.unit ?? { name: 'built-in unit.json', content: builtInUnit },
  );
  const bottles = readBottles(asked.resin);
  if (!unit.ok || !bottles.ok) {
    return { ok: false, problems: [unit, bottles].flatMap((one) => (one.ok ? [] : one.problems)) };
  }
  const advice = adviceOf({
    sheet,
    bottles: bottles.value,
    unit: unit.value.settings,
    today,
    permitted: assessment.answer === 'allowed' && assessment.technical.answer === 'can',
    rules: asked.adviceRules,
  });
  if (!advice.ok) return advice;
  const bottle = bottles.value[advice.value.take ?? -1] ?? null;
  return { ok: true, value: jobFiles(advice.value, sheet, bottle, asked) };
}

function jobFiles(
  advice: Advice,
  sheet: IntakeSheet,
  bottle: Bottle | null,
  { technician, vehicle, customer }: Pick<AdviceAsked, 'technician' | 'vehicle' | 'customer'>,
): JobFiles {
  const profile = advice.profile === null ? {} : { 'profile.json': advice.profile.file };
  const missing = [
    ...(technician === undefined ? ['--technician'] : []),
    ...(bottle === null ? ['a suitable bottle (--resin)'] : []),
    ...unknownAnswers(sheet),
  ];
  if (technician === undefined || bottle === null || missing.length > 0) {
    const note = `No job.json: it needs ${missing.join(', ')}.`;
    return { advice, files: profile, notes: [note] };
  }
  return {
    advice,
    files: { ...profile, 'job.json': jobFile(sheet, bottle, { technician, vehicle, customer }) },
    notes: [],
  };
}

const NEEDED = ['type', 'diameterMm', 'pitMm', 'legs', 'longestLegMm'] as const;

const unknownAnswers = ({ damage, conditions }: IntakeSheet): readonly string[] => [
  ...NEEDED.filter((name) => damage[name] === 'unknown').map((name) => `damage.${name}`),
  ...(['glassC', 'airC'] as const)
    .filter((name) => conditions[name] === 'unknown')
    .map((name) => `conditions.${name}`),
];

function jobFile(
  sheet: IntakeSheet,
  bottle: Bottle,
  people: {
    readonly technician: string;
    readonly vehicle: string | undefined;
    readonly customer: string | undefined;
  },
) {
  const { reference, damage, conditions } = sheet;
  return {
    schema: 'meniscus/job@1',
    reference,
    // A name that was not given leaves no field in the file.
    ...people,
    damage: {
      ...Object.fromEntries(NEEDED.map((name) => [name, damage[name]])),
      depthMm: damage.depthMm === 'unknown' ? null : damage.depthMm,
    },
    glassC: conditions.glassC,
    airC: conditions.airC,
    resin: statedResin(bottle.resin),
  };
}
