/**
 * Judges the counted dose by guarded acceptance (JCGM 106:2012, from memory). The dose is met when dose - k
 * u is at or above the target, not met when dose + k u is below it, and not shown in between. Fill
 * and pit cured apart are judged separately. A journal from before doses had an uncertainty is
 * judged by the dose as it was read, and the result says so. Whether the count is worth anything, the
 * claim on the dose decides.
 */

import type { Snapshot } from '../core/events.ts';
import { numberAt } from '../core/fields.ts';
import type { CureMeasurement, Portion } from '../core/measurements.ts';
import { PIT_PHASES } from '../core/phases.ts';
import { jPerM2FromMJPerCm2 } from '../core/units.ts';
import type { JournalInputs } from '../journal/journal-format.ts';
import { withTargetsAtResin } from '../journal/older-profile.ts';
import type { CuredPortion, DosePart, FieldOf } from './dose-part.ts';
import { lastMeasured, type MeasuredRow, ofField } from './timeline.ts';

export interface DoseUncertainty {
  readonly standardJPerM2: number;
  readonly coverageFactor: number;
  /** One-sided; null where the unit file states none. */
  readonly coveragePercent: number | null;
  /** k u: the guard band on either side of the target. */
  readonly expandedJPerM2: number;
  /** The dose that is shown to have been reached at least. */
  readonly shownJPerM2: number;
}

/** A dose of one portion, or of both together; of one field where there were several. */
export interface CountedDose extends DosePart {
  /** `not recorded`: the record breaks off before this dose was stated. */
  readonly verdict: 'met' | 'not met' | 'not shown' | 'not cured' | 'not recorded';
  readonly doseJPerM2: number;
  /**
   * As the sensor must read it: the job's target, or the profile's in an older journal; null where
   * neither states one.
   */
  readonly targetJPerM2: number | null;
  /** The same target at the resin, and the dose there; null where the record does not say. */
  readonly atResin: { readonly targetJPerM2: number; readonly doseJPerM2: number } | null;
  /** Null where the record does not say: the journal is older or broke off early. */
  readonly targetSetBy: 'profile' | 'depth of the break' | 'depth of the pit' | null;
  /** Null where the record states none: the cure was cut short or the journal is older. */
  readonly uncertainty: DoseUncertainty | null;
  readonly lampOnS: number | null;
  readonly irradianceMeanWPerM2: number | null;
  /** Light of the pit's cure that reached the fill: calculated, not judged. Null elsewhere. */
  readonly throughPitJPerM2: number | null;
}

interface Source {
  /** Whose values they are in the journal. */
  readonly of: Portion | null;
  /** Section of the profile. */
  readonly section: 'cure' | 'pitCure';
  readonly depth: 'depth of the break' | 'depth of the pit';
  readonly counts: (snapshot: Snapshot) => boolean;
}

const SOURCES: Readonly<Record<CuredPortion, Source>> = {
  'fill and pit': {
    of: null,
    section: 'cure',
    depth: 'depth of the break',
    counts: () => true,
  },
  fill: {
    of: 'fill',
    section: 'cure',
    depth: 'depth of the break',
    counts: ({ phase }) => !PIT_PHASES.has(phase),
  },
  pit: {
    of: 'pit',
    section: 'pitCure',
    depth: 'depth of the pit',
    counts: ({ phase }) => PIT_PHASES.has(phase),
  },
};

/** Whose values a portion's are in the journal; null for those of both at once. */
export const measuredPortionOf = (cured: CuredPortion): Portion | null => SOURCES[cured].of;

/** The portions that a profile has cured, in their order. */
export const curedPortionsOf = (profile: unknown): readonly CuredPortion[] =>
  curingOf(profile) === 'apart' ? ['fill', 'pit'] : ['fill and pit'];

const curingOf = (profile: unknown): unknown =>
  typeof profile === 'object' && profile !== null && 'curing' in profile ? profile.curing : null;

/**
 * Returns one result for both portions, or one each for fill and pit. `whole`: the journal has its
 * end.
 */
export function countedDosesOf(
  snapshots: readonly Snapshot[],
  measured: readonly MeasuredRow[],
  inputs: Pick<JournalInputs, 'profile' | 'unit'>,
  whole: boolean,
  fieldAt: (timeS: number) => number = () => 1,
): readonly CountedDose[] {
  const count = lastMeasured(measured, 'fieldsPlanned') ?? 1;
  const fields: readonly (FieldOf | null)[] =
    count > 1 ? Array.from({ length: count }, (_, i) => ({ number: i + 1, of: count })) : [null];
  return curedPortionsOf(inputs.profile).flatMap((portion) =>
    fields.map((field) => {
      const own =
        field === null ? snapshots : snapshots.filter((one) => fieldAt(one.timeS) === field.number);
      return countedDoseOf({ portion, field }, own, measured, inputs, whole);
    }),
  );
}

function countedDoseOf(
  { portion, field = null }: DosePart,
  snapshots: readonly Snapshot[],
  measured: readonly MeasuredRow[],
  { profile, unit }: Pick<JournalInputs, 'profile' | 'unit'>,
  whole: boolean,
): CountedDose {
  const source = SOURCES[portion];
  const cured = field === null ? measured : ofField(measured, field.number);
  const last = (name: CureMeasurement) => lastMeasured(cured, name, source.of);
  const stated = last('doseJPerM2');
  const doseJPerM2 = stated ?? snapshots.findLast(source.counts)?.doseJPerM2 ?? 0;
  const target = targetOf(source, measured, withTargetsAtResin(profile));
  const { targetJPerM2 } = target;
  const coveragePercent = numberAt(unit, 'uncertainty', 'acceptance', 'coveragePercent');
  const uncertainty =
    stated === null ? null : uncertaintyOf(source, stated, cured, coveragePercent);
  const unstated = whole
    ? unfinishedVerdict(doseJPerM2, targetJPerM2, coveragePercent)
    : 'not recorded';
  return {
    portion,
    ...(field !== null && { field }),
    verdict: stated === null ? unstated : statedVerdict(stated, targetJPerM2, uncertainty),
    doseJPerM2,
    ...target,
    atResin: atResinOf(
      lastMeasured(measured, 'targetAtResinJPerM2', source.of),
      targetJPerM2,
      doseJPerM2,
    ),
    uncertainty,
    lampOnS: last('lampOnS'),
    irradianceMeanWPerM2: last('irradianceMeanWPerM2'),
    throughPitJPerM2: last('throughPitJPerM2'),
  };
}

/**
 * A deep break or pit needs more than the profile's dose; the controller states the valid target at
 * the start.
 */
function targetOf(
  { of, section, depth }: Source,
  measured: readonly MeasuredRow[],
  profile: unknown,
): Pick<CountedDose, 'targetJPerM2' | 'targetSetBy'> {
  const leastMJPerCm2 = numberAt(profile, section, 'targetAtResinMJPerCm2');
  const leastAtResin = leastMJPerCm2 === null ? null : jPerM2FromMJPerCm2(leastMJPerCm2);
  const filmRatio = (numberAt(profile, 'cure', 'filmPassesPercent') ?? FILM_PERCENT) / 100;
  const targetJPerM2 = lastMeasured(measured, 'targetJPerM2', of);
  if (targetJPerM2 === null) {
    return {
      targetJPerM2: leastAtResin === null ? null : leastAtResin / filmRatio,
      targetSetBy: null,
    };
  }
  // Journals from before the target was stated at the resin knew of no loss but the film's.
  const atResin = lastMeasured(measured, 'targetAtResinJPerM2', of) ?? targetJPerM2 * filmRatio;
  const deep = leastAtResin === null || atResin > leastAtResin * (1 + ROUNDING);
  return { targetJPerM2, targetSetBy: deep ? depth : 'profile' };
}

/** A profile that does not state its film has this. */
const FILM_PERCENT = 90;
/** Two ways to one number differ by less. */
const ROUNDING = 1e-9;

/** The share of the sensor's reading that reaches the resin is that of the targets. */
function atResinOf(
  atResinJPerM2: number | null,
  atSensorJPerM2: number | null,
  doseJPerM2: number,
): CountedDose['atResin'] {
  if (atResinJPerM2 === null || atSensorJPerM2 === null) return null;
  return {
    targetJPerM2: atResinJPerM2,
    doseJPerM2: doseJPerM2 * (atResinJPerM2 / atSensorJPerM2),
  };
}

function uncertaintyOf(
  { of }: Source,
  doseJPerM2: number,
  measured: readonly MeasuredRow[],
  coveragePercent: number | null,
): DoseUncertainty | null {
  const standardJPerM2 = lastMeasured(measured, 'doseUncertaintyJPerM2', of);
  const coverageFactor = lastMeasured(measured, 'doseCoverageFactor');
  if (standardJPerM2 === null || coverageFactor === null) return null;
  const expandedJPerM2 = coverageFactor * standardJPerM2;
  // Older records did not interrupt the lamp: all that was counted is taken as shown.
  const shownJPerM2 = lastMeasured(measured, 'shownDoseJPerM2', of) ?? doseJPerM2 - expandedJPerM2;
  return { standardJPerM2, coverageFactor, coveragePercent, expandedJPerM2, shownJPerM2 };
}

/** The controller states a dose when the cure is done; until then nothing is shown to be met. */
function unfinishedVerdict(
  doseJPerM2: number,
  targetJPerM2: number | null,
  coveragePercent: number | null,
): CountedDose['verdict'] {
  if (doseJPerM2 <= 0) return 'not cured';
  const reached = targetJPerM2 !== null && doseJPerM2 >= targetJPerM2;
  return reached && coveragePercent !== null ? 'not shown' : 'not met';
}

function statedVerdict(
  doseJPerM2: number,
  targetJPerM2: number | null,
  uncertainty: DoseUncertainty | null,
): CountedDose['verdict'] {
  if (doseJPerM2 <= 0) return 'not cured';
  if (targetJPerM2 === null) return 'not met';
  if (uncertainty === null) return doseJPerM2 >= targetJPerM2 ? 'met' : 'not met';
  if (uncertainty.shownJPerM2 >= targetJPerM2) return 'met';
  return doseJPerM2 + uncertainty.expandedJPerM2 < targetJPerM2 ? 'not met' : 'not shown';
}
