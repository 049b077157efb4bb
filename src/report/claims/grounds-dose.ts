/** Whether a portion got the light that it needs: what was counted, and what else shows it. */
import { figure } from '../../core/sayings.ts';
import { say } from '../language.ts';
import { type CountedDose, measuredPortionOf } from '../report-dose.ts';
import { lastMeasured } from '../timeline.ts';
import { doseWords } from '../words.ts';
import { type Ground, lacks, notRecorded, objects, supports } from './claim.ts';
import type { ClaimFacts } from './claim-facts.ts';
import { DOSE_DOUBTS, objectsAfter } from './doubts.ts';
import { glassRisesIn, LEAST_SHARE_OF_USUAL } from './glass-warmth.ts';
import { ofItsLight } from './grounds-light.ts';

const doseOf = (
  { doses }: ClaimFacts,
  portion: CountedDose['portion'] | null,
): CountedDose | undefined => doses.find((dose) => dose.portion === portion);

const counted: Ground = (facts, portion) => {
  const dose = doseOf(facts, portion);
  if (dose === undefined) return [];
  const { uncertainty, targetJPerM2, doseJPerM2 } = dose;
  const figures = {
    dose: figure(doseWords(doseJPerM2)),
    target:
      targetJPerM2 === null
        ? say('lines.no-target')
        : say('lines.target', { dose: figure(doseWords(targetJPerM2)) }),
  };
  const words =
    uncertainty === null
      ? say('lines.counted', figures)
      : say('lines.counted-least', {
          ...figures,
          least: figure(doseWords(uncertainty.shownJPerM2)),
        });
  switch (dose.verdict) {
    case 'met':
      return [supports('light sensor', words)];
    case 'not met':
      return [objects('dose-short', words)];
    case 'not cured':
      return [objects('not-cured', say('lines.no-light'))];
    case 'not recorded':
      return [objects('dose-cut', say('lines.cut', { counted: words }))];
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
  if (passed === null) return [notRecorded(say('lines.lamp-gaps'), facts)];
  const words = say('lines.gaps', { passed: String(passed), failed: String(failed) });
  return [passed > 0 ? supports('lamp interruptions', words) : lacks(words)];
};

/** The sensor's gain: without the light that this lamp is not known to give, the target is reached. */
const brightness: Ground = (facts, portion) => {
  const dose = doseOf(facts, portion);
  if (dose === undefined || dose.doseJPerM2 <= 0) return [];
  const of = measuredPortionOf(dose.portion);
  const unconfirmed = lastMeasured(facts.measured, 'unconfirmedDoseJPerM2', of);
  if (unconfirmed === null || dose.uncertainty === null)
    return [notRecorded(say('lines.known-light'), facts)];
  const borneOut = dose.uncertainty.shownJPerM2 - unconfirmed;
  // Below zero the uncertainty is more than what the lamp is known to give: none is borne out.
  const least = doseWords(Math.max(0, borneOut));
  const words = say('lines.borne-out', { least: figure(least) });
  return borneOut >= (dose.targetJPerM2 ?? 0)
    ? [supports('known output of the lamp', words)]
    : [objects('light-unconfirmed', words)];
};

/** Where less warming than this is usual, the light is too short to tell by it, K. */
const TELLING_K = 0.6;

/** The light sensor stands with the lamp: the glass alone tells that both stood over it. */
const fellOnGlass: Ground = (facts, portion) => {
  const cure = facts.doses.findIndex((dose) => dose.portion === portion);
  const { seenK, usualK } = glassRisesIn(facts)[cure] ?? { seenK: 0, usualK: null };
  if (usualK === null || usualK < TELLING_K) return [];
  if (seenK >= LEAST_SHARE_OF_USUAL * usualK) return [];
  const seen = figure(`${seenK.toFixed(1)} K`);
  const usual = figure(`${usualK.toFixed(1)} K`);
  return [objects('light-beside-glass', say('lines.beside-glass', { seen, usual }))];
};

export const DOSE_GROUNDS: readonly Ground[] = [
  counted,
  objectsAfter(DOSE_DOUBTS, 'clock-or-light-in-doubt'),
  interrupted,
  brightness,
  ofItsLight,
  fellOnGlass,
];
