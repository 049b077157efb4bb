/** Whether a portion got the light that it needs: what was counted, and what else shows it. */
import { numberAt } from '../../core/fields.ts';
import { type CountedDose, measuredPortionOf } from '../report-dose.ts';
import { lastMeasured } from '../timeline.ts';
import { doseWords, lightWords } from '../words.ts';
import { type Ground, lacks, notRecorded, objects, supports } from './claim.ts';
import type { ClaimFacts } from './claim-facts.ts';
import { DOSE_DOUBTS, objectsAfter } from './doubts.ts';

const doseOf = (
  { doses }: ClaimFacts,
  portion: CountedDose['portion'] | null,
): CountedDose | undefined => doses.find((dose) => dose.portion === portion);

const counted: Ground = (facts, portion) => {
  const dose = doseOf(facts, portion);
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
      return [objects('not-cured', 'the lamp gave no light')];
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
const interrupted: Ground = (facts, portion) => {
  const dose = doseOf(facts, portion);
  if (dose === undefined || dose.doseJPerM2 <= 0) return [];
  const count = (name: 'gapsPassed' | 'gapsFailed'): number | null =>
    lastMeasured(facts.measured, name, measuredPortionOf(dose.portion));
  const [passed, failed] = [count('gapsPassed'), count('gapsFailed') ?? 0];
  if (passed === null) return [notRecorded('interruptions of the lamp in the cure')];
  const words = `${passed} interruptions of the lamp passed, ${failed} failed`;
  return [passed > 0 ? supports('lamp interruptions', words) : lacks(words)];
};

/**
 * How far the light may be from what this lamp gave when it was last used. A lamp does not get
 * brighter, so more light is an error of the sensor, which makes the dose too small; a lamp ages and
 * its window gets dirty, which the count allows for. Demo values.
 */
const BRIGHTER_AT_MOST_RATIO = 1.1;
const DIMMER_AT_MOST_RATIO = 0.6;

/** The sensor's gain: what the lamp is known to give from earlier jobs and from its calibration. */
const brightness: Ground = (facts, portion) => {
  const mean = doseOf(facts, portion)?.irradianceMeanWPerM2 ?? null;
  if (mean === null) return [];
  const known = lastMeasured(facts.measured, 'lampLastKnownWPerM2');
  if (known === null) return [notRecorded('what the lamp gave before')];
  const section = portion === 'pit' ? 'pitCure' : 'cure';
  const driveRatio = (numberAt(facts.inputs.profile, section, 'lampPercent') ?? 100) / 100;
  const expected = known * driveRatio;
  const words = `${lightWords(mean)} on average; ${lightWords(expected)} known of this lamp`;
  const ratio = mean / expected;
  if (ratio > BRIGHTER_AT_MOST_RATIO) return [objects('light-brighter', words)];
  return [
    ratio < DIMMER_AT_MOST_RATIO ? lacks(words) : supports('known output of the lamp', words),
  ];
};

export const DOSE_GROUNDS: readonly Ground[] = [
  counted,
  objectsAfter(DOSE_DOUBTS, 'clock-or-light-in-doubt'),
  interrupted,
  brightness,
];
