/**
 * What may be said of the dose: met only where it is shown to be, by guarded acceptance (JCGM
 * 106:2012, from memory): dose - k u at or over the target. Dose + k u under it is not met, and what
 * lies between is not shown. A journal from before doses had an uncertainty is judged by the dose
 * as it was read, and says so.
 */
import type { Snapshot } from '../events.ts';
import { jPerM2FromMJPerCm2 } from '../units.ts';
import type { JournalInputs } from './journal-format.ts';
import { numberAt } from './number-at.ts';
import { lastMeasured, type MeasuredRow } from './report-timeline.ts';

export interface DoseUncertainty {
  readonly standardJPerM2: number;
  readonly coverageFactor: number;
  /** One-sided; null where the unit file states none. */
  readonly coveragePercent: number | null;
  /** k u: the guard band on either side of the target. */
  readonly expandedJPerM2: number;
  /** What the dose is shown to be at least. */
  readonly shownJPerM2: number;
}

export interface DoseResult {
  readonly verdict: 'met' | 'not met' | 'not shown' | 'not cured';
  readonly doseJPerM2: number;
  /** The job's, or the profile's in an older journal; null where neither states one. */
  readonly targetJPerM2: number | null;
  /** Null where the record does not say: an older journal, or one that broke off early. */
  readonly targetSetBy: 'profile' | 'depth of the break' | null;
  /** Null where the record states none: the cure was broken off, or the journal is older. */
  readonly uncertainty: DoseUncertainty | null;
  readonly lampOnS: number | null;
  readonly irradianceMeanWPerM2: number | null;
}

export function doseResultOf(
  snapshots: readonly Snapshot[],
  measured: readonly MeasuredRow[],
  { profile, unit }: Pick<JournalInputs, 'profile' | 'unit'>,
): DoseResult {
  const stated = lastMeasured(measured, 'doseJPerM2');
  const doseJPerM2 = stated ?? snapshots.at(-1)?.doseJPerM2 ?? 0;
  const target = targetOf(measured, profile);
  const { targetJPerM2 } = target;
  const coveragePercent = numberAt(unit, 'uncertainty', 'acceptance', 'coveragePercent');
  const uncertainty = stated === null ? null : uncertaintyOf(stated, measured, coveragePercent);
  return {
    verdict:
      stated === null
        ? unfinishedVerdict(doseJPerM2, targetJPerM2, coveragePercent)
        : statedVerdict(stated, targetJPerM2, uncertainty),
    doseJPerM2,
    ...target,
    uncertainty,
    lampOnS: lastMeasured(measured, 'lampOnS'),
    irradianceMeanWPerM2: lastMeasured(measured, 'irradianceMeanWPerM2'),
  };
}

/** A deep break asks for more than the profile; the controller says at the start what holds. */
function targetOf(
  measured: readonly MeasuredRow[],
  profile: unknown,
): Pick<DoseResult, 'targetJPerM2' | 'targetSetBy'> {
  const targetMJPerCm2 = numberAt(profile, 'cure', 'targetMJPerCm2');
  const leastJPerM2 = targetMJPerCm2 === null ? null : jPerM2FromMJPerCm2(targetMJPerCm2);
  const targetJPerM2 = lastMeasured(measured, 'targetJPerM2');
  if (targetJPerM2 === null) return { targetJPerM2: leastJPerM2, targetSetBy: null };
  const deep = leastJPerM2 === null || targetJPerM2 > leastJPerM2;
  return { targetJPerM2, targetSetBy: deep ? 'depth of the break' : 'profile' };
}

function uncertaintyOf(
  doseJPerM2: number,
  measured: readonly MeasuredRow[],
  coveragePercent: number | null,
): DoseUncertainty | null {
  const standardJPerM2 = lastMeasured(measured, 'doseUncertaintyJPerM2');
  const coverageFactor = lastMeasured(measured, 'doseCoverageFactor');
  if (standardJPerM2 === null || coverageFactor === null) return null;
  const expandedJPerM2 = coverageFactor * standardJPerM2;
  const shownJPerM2 = doseJPerM2 - expandedJPerM2;
  return { standardJPerM2, coverageFactor, coveragePercent, expandedJPerM2, shownJPerM2 };
}

/** The controller states a dose when the cure is done; before that nothing is shown to be met. */
function unfinishedVerdict(
  doseJPerM2: number,
  targetJPerM2: number | null,
  coveragePercent: number | null,
): DoseResult['verdict'] {
  if (doseJPerM2 <= 0) return 'not cured';
  const reached = targetJPerM2 !== null && doseJPerM2 >= targetJPerM2;
  return reached && coveragePercent !== null ? 'not shown' : 'not met';
}

function statedVerdict(
  doseJPerM2: number,
  targetJPerM2: number | null,
  uncertainty: DoseUncertainty | null,
): DoseResult['verdict'] {
  if (doseJPerM2 <= 0) return 'not cured';
  if (targetJPerM2 === null) return 'not met';
  if (uncertainty === null) return doseJPerM2 >= targetJPerM2 ? 'met' : 'not met';
  if (uncertainty.shownJPerM2 >= targetJPerM2) return 'met';
  return doseJPerM2 + uncertainty.expandedJPerM2 < targetJPerM2 ? 'not met' : 'not shown';
}
