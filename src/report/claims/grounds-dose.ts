/** Whether a portion got the light that it needs: what was counted, and what else shows it. */
import { type DosePart, isSamePart } from '../dose-part.ts';
import { type CountedDose, measuredPortionOf } from '../report-dose.ts';
import { lastMeasured, type MeasuredRow, ofField } from '../timeline.ts';
import { doseWords } from '../words.ts';
import { type Ground, lacks, notRecorded, objects, supports } from './claim.ts';
import type { ClaimFacts } from './claim-facts.ts';
import { DOSE_DOUBTS, objectsAfter } from './doubts.ts';
import { glassRisesIn, LEAST_SHARE_OF_USUAL } from './glass-warmth.ts';
import { lampMovedOn } from './grounds-fields.ts';
import { ofItsLight } from './grounds-light.ts';

const doseOf = ({ doses }: ClaimFacts, part: DosePart | null): CountedDose | undefined =>
  part === null ? undefined : doses.find((dose) => isSamePart(dose, part));

/** What was measured of this dose. */
const measuredOf = ({ measured }: ClaimFacts, { field }: DosePart): readonly MeasuredRow[] =>
  field == null ? measured : ofField(measured, field.number);

const counted: Ground = (facts, part) => {
  const dose = doseOf(facts, part);
  if (dose === undefined) return [];
  const { uncertainty, targetJPerM2, doseJPerM2 } = dose;
  const target =
    targetJPerM2 === null ? 'no target is stated' : `target ${doseWords(targetJPerM2)}`;
  const least = uncertainty === null ? '' : `, at least ${doseWords(uncertainty.shownJPerM2)}`;
  const words = `${doseWords(doseJPerM2)} counted${least}; ${target}`;
  switch (dose.verdict) {
    case 'met':
      return [supports('light sensor', words)];
    case 'not met':
      return [objects('dose-short', words)];
    case 'not cured':
      return [objects('not-cured', 'no light was counted')];
    case 'not recorded':
      return [objects('dose-cut', `the record breaks off; ${words}`)];
    case 'not shown':
      return [objects('dose-close', words)];
  }
};

/**
 * Between gaps in which the reading fell to dark with the lamp and came back, the light was the
 * lamp's and the zero was right. The counted dose is only of that light.
 */
const interrupted: Ground = (facts, part) => {
  const dose = doseOf(facts, part);
  if (dose === undefined || dose.doseJPerM2 <= 0) return [];
  const count = (name: 'gapsPassed' | 'gapsFailed'): number | null =>
    lastMeasured(measuredOf(facts, dose), name, measuredPortionOf(dose.portion));
  const [passed, failed] = [count('gapsPassed'), count('gapsFailed') ?? 0];
  if (passed === null) return [notRecorded('interruptions of the lamp in the cure', facts)];
  const words = `${passed} interruptions of the lamp passed, ${failed} failed`;
  return [passed > 0 ? supports('lamp interruptions', words) : lacks(words)];
};

/** The sensor's gain: without the light that this lamp is not known to give, the target is reached. */
const brightness: Ground = (facts, part) => {
  const dose = doseOf(facts, part);
  if (dose === undefined || dose.doseJPerM2 <= 0) return [];
  const of = measuredPortionOf(dose.portion);
  const unconfirmed = lastMeasured(measuredOf(facts, dose), 'unconfirmedDoseJPerM2', of);
  if (unconfirmed === null || dose.uncertainty === null)
    return [notRecorded('what of the light the lamp is known to give', facts)];
  const borneOut = dose.uncertainty.shownJPerM2 - unconfirmed;
  // Below zero the uncertainty is more than what the lamp is known to give: none is borne out.
  const least = doseWords(Math.max(0, borneOut));
  const words = `at least ${least} of it is light that this lamp is known to give`;
  return borneOut >= (dose.targetJPerM2 ?? 0)
    ? [supports('known output of the lamp', words)]
    : [objects('light-unconfirmed', words)];
};

/** Where less warming than this is usual, the light is too short to tell by it, K. */
const TELLING_K = 0.6;

/** The light sensor stands with the lamp: the glass alone tells that both stood over it. */
const fellOnGlass: Ground = (facts, part) => {
  const cure = part === null ? -1 : facts.doses.findIndex((dose) => isSamePart(dose, part));
  const { seenK, usualK } = glassRisesIn(facts)[cure] ?? { seenK: 0, usualK: null };
  if (usualK === null || usualK < TELLING_K) return [];
  if (seenK >= LEAST_SHARE_OF_USUAL * usualK) return [];
  const words = `the light warmed the glass by ${seenK.toFixed(1)} K, ${usualK.toFixed(1)} K are usual`;
  return [objects('light-beside-glass', `${words}: the lamp may have stood beside it`)];
};

export const DOSE_GROUNDS: readonly Ground[] = [
  counted,
  objectsAfter(DOSE_DOUBTS, 'clock-or-light-in-doubt'),
  interrupted,
  brightness,
  ofItsLight,
  fellOnGlass,
  lampMovedOn,
];
