/**
 * The doses of fill and pit during a job: for which of them the lamp's light counts, and what
 * procedure, alarms and panel learn about the current one. It judges nothing.
 */

import { measuredEvents, type UnstampedEvent } from '../../core/events.ts';
import { lampBurns, type Measured, type Reading } from '../../core/frame.ts';
import { measuredOfCure } from '../../core/measurements.ts';
import { memoized } from '../../core/memoized.ts';
import type { PhaseId } from '../../core/phases.ts';
import { type CureTarget, cureDone, cureLeftS, forecastS } from '../../cure/dose.ts';
import { doseUncertaintyJPerM2 } from '../../cure/dose-uncertainty.ts';
import { type PortionDoses, stepPortions, throughPitRatio } from '../../cure/portions.ts';
import { stepUncountedLight, type UncountedLight } from '../../cure/uncounted-light.ts';
import { placeOfAlarm } from '../../safety/alarm-table.ts';
import type { PhaseContext } from '../phase.ts';
import { jobCuresOf, pitCurveOf, portionIn } from './job-target.ts';
import type { RepairConfig, RepairState } from './repair-state.ts';

export function countLight(
  { scene: { doses }, procedure, commanded }: RepairState,
  { irradianceWPerM2 }: Reading,
  config: RepairConfig,
  dtS: number,
): PortionDoses {
  const together = config.profile.curing === 'together';
  const on = together ? 'both' : portionIn(procedure.phase, config);
  const light = isTooBright(irradianceWPerM2, config) ? NOT_THE_LAMPS : irradianceWPerM2;
  return stepPortions(doses, light, { lampOn: lampBurns(commanded), on }, dtS);
}

/** Light that acted in time that counts for nothing; too much of it is still light. */
export function missedLight(
  { scene: { uncounted }, procedure, commanded }: RepairState,
  { irradianceWPerM2 }: Reading,
  config: RepairConfig,
  uncountedS: number,
): UncountedLight {
  const together = config.profile.curing === 'together';
  const on = together ? 'both' : portionIn(procedure.phase, config);
  const lampOn = lampBurns(commanded);
  return stepUncountedLight(uncounted, irradianceWPerM2, { lampOn, on }, uncountedS);
}

const NOT_THE_LAMPS: Measured = { ok: false, fault: 'implausible' };
const TOO_BRIGHT = placeOfAlarm('light-too-bright');

/**
 * More light than this lamp can give buys no dose, from the first tick on. The alarm for it comes
 * later, and without this rule a person who resumes the job again and again would reach the target
 * with it.
 */
function isTooBright(irradianceWPerM2: Measured, { unit }: RepairConfig): boolean {
  const mostRatio = unit.alarms[TOO_BRIGHT]?.limitSI ?? Number.POSITIVE_INFINITY;
  return (lightShareRatioOf(irradianceWPerM2, unit) ?? 0) > mostRatio;
}

/** Light relative to the lamp's last measured output; null where either is not known. */
export function lightShareRatioOf(
  irradianceWPerM2: Measured,
  { lampLastKnownWPerM2: known }: RepairConfig['unit'],
): number | null {
  return known === null || !irradianceWPerM2.ok ? null : irradianceWPerM2.value / known;
}

/** The current phase's dose, for the procedure. */
export function cureInHand(
  { scene: { doses }, procedure }: RepairState,
  config: RepairConfig,
): PhaseContext['cure'] {
  const { doseUncertaintyTerms } = config.unit;
  const portion = portionIn(procedure.phase, config);
  const dose = doses[portion];
  return {
    done: cureDone(dose, jobCuresOf(config)[portion], doseUncertaintyTerms),
    doseJPerM2: dose.doseJPerM2,
    doseUncertaintyJPerM2: doseUncertaintyJPerM2(dose, doseUncertaintyTerms),
    doseCoverageFactor: doseUncertaintyTerms.coverageFactor,
    lampOnS: dose.lampOnS,
  };
}

const NOT_DARK = placeOfAlarm('light-not-dark');

/** What the light sensor alone shows: dark within its zero error, or standing still. */
export function lightSeen(
  { watch }: RepairState,
  { irradianceWPerM2 }: Reading,
  { unit }: RepairConfig,
): PhaseContext['light'] {
  const darkestWPerM2 = unit.alarms[NOT_DARK]?.limitSI ?? 0;
  return {
    dark: irradianceWPerM2.ok && irradianceWPerM2.value <= darkestWPerM2,
    quietS: watch.light.quietS,
  };
}

/**
 * For the display: the remaining time of the cure, and the margin by which it must exceed its
 * target.
 */
export function doseInHand({ scene: { doses }, procedure }: RepairState, config: RepairConfig) {
  const { doseUncertaintyTerms } = config.unit;
  const portion = portionIn(procedure.phase, config);
  const dose = doses[portion];
  return {
    leftS: cureLeftS(dose, jobCuresOf(config)[portion], doseUncertaintyTerms),
    marginJPerM2:
      doseUncertaintyTerms.coverageFactor * doseUncertaintyJPerM2(dose, doseUncertaintyTerms),
  };
}

interface AlarmCure {
  /**
   * Light time of the whole cure at the present irradiance, s; null while there is none to judge
   * by.
   */
  readonly needsS: number | null;
  /** The same at the lamp's last known output, before it is switched on. */
  readonly forecastS: number | null;
  /** The longest time that this cure may take. */
  readonly longestS: number;
}

/**
 * The cure that the alarms judge: the current one; before the job the more demanding of the two.
 */
export function alarmCureOf(
  config: RepairConfig,
  { scene: { doses }, procedure }: RepairState,
): AlarmCure {
  const forecast = hardestCureOf(config);
  if (procedure.phase === 'self-test') return { needsS: null, ...forecast };
  const portion = portionIn(procedure.phase, config);
  const dose = doses[portion];
  const target = jobCuresOf(config)[portion];
  const lit = dose.lastWPerM2 !== null;
  const needsS = lit
    ? dose.lampOnS + cureLeftS(dose, target, config.unit.doseUncertaintyTerms)
    : null;
  return { needsS, forecastS: forecast.forecastS, longestS: target.longestS };
}

/** Its forecast is null where the lamp's output is not known. */
const hardestCureOf = memoized((config: RepairConfig): Omit<AlarmCure, 'needsS'> => {
  const { lampLastKnownWPerM2: last, doseUncertaintyTerms } = config.unit;
  const { fill, pit } = jobCuresOf(config);
  if (last === null) return { forecastS: null, longestS: fill.longestS };
  const forecastOf = (target: CureTarget) => ({
    forecastS: forecastS(last, target, doseUncertaintyTerms),
    longestS: target.longestS,
  });
  const [ofFill, ofPit] = [forecastOf(fill), forecastOf(pit)];
  const shareOf = ({ forecastS: s, longestS }: typeof ofFill): number => s / longestS;
  return shareOf(ofPit) > shareOf(ofFill) ? ofPit : ofFill;
});

/**
 * Once the pit has been cured apart, the record also holds how much of its light reached the fill
 * below.
 */
export function throughPitMeasurement(
  before: PhaseId,
  { scene: { doses }, procedure }: Pick<RepairState, 'procedure' | 'scene'>,
  config: RepairConfig,
): readonly UnstampedEvent[] {
  const cured = before === 'cure' && procedure.phase === 'scrape';
  if (!cured || config.profile.curing === 'together') return [];
  const ratio = throughPitRatio(config.job.damage.pitDepthM, pitCurveOf(config));
  if (ratio === null) return [];
  const throughPitJPerM2 = ratio * doses.pit.doseJPerM2;
  return measuredEvents(measuredOfCure('fill', { throughPitJPerM2 }));
}
