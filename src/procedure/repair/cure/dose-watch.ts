/**
 * The doses of fill and pit during a job: for which of them the lamp's light counts, how much of it
 * is shown, and what procedure, alarms and panel learn about the current one. It judges nothing.
 */

import { measuredEvents, type UnstampedEvent } from '../../../core/events.ts';
import { type Actuators, lampBurns, type Measured, type Reading } from '../../../core/frame.ts';
import { measuredOfCure } from '../../../core/measurements.ts';
import { memoized } from '../../../core/memoized.ts';
import { CURE_PHASES, type PhaseId } from '../../../core/phases.ts';
import { type CureTarget, cureDone, cureLeftS, forecastS } from '../../../cure/dose.ts';
import {
  doseUncertaintyJPerM2,
  marginJPerM2,
  shownJPerM2,
} from '../../../cure/dose-uncertainty.ts';
import {
  type CuredBy,
  type GapLimits,
  gapIsDue,
  type LightProof,
  NO_PROOF,
  stepLightProof,
  withOpenPiece,
} from '../../../cure/light-proof.ts';
import {
  NO_DOSES,
  type PortionDoses,
  stepPortions,
  throughPitRatio,
} from '../../../cure/portions.ts';
import {
  NO_UNCOUNTED_LIGHT,
  stepUncountedLight,
  type UncountedLight,
} from '../../../cure/uncounted-light.ts';
import { placeOfAlarm } from '../../../safety/alarm-table.ts';
import type { PhaseContext } from '../../phase.ts';
import type { RepairConfig, RepairScene, RepairState } from '../repair-state.ts';
import { workPlanOf } from '../work-plan.ts';
import { beginsField } from './fields.ts';
import { cureAskedIn } from './further-cure.ts';
import { jobCuresOf, pitCurveOf, portionIn } from './job-target.ts';

export function countLight(
  { scene: { doses }, procedure, commanded }: RepairState,
  reading: Reading,
  config: RepairConfig,
  dtS: number,
): PortionDoses {
  if (beginsField(procedure.phase, workPlanOf(config))) return NO_DOSES;
  const light = lampsOwn(reading, lightShareRatioOf(reading, commanded, config), config);
  const on = curedIn(procedure.phase, config);
  return stepPortions(doses, light, { lampOn: lampBurns(commanded), on }, dtS);
}

/** Light that acted in time that counts for nothing; too much of it is still light. */
export function missedLight(
  { scene: { uncounted }, procedure, commanded }: RepairState,
  { irradianceWPerM2 }: Reading,
  config: RepairConfig,
  uncountedS: number,
): UncountedLight {
  if (beginsField(procedure.phase, workPlanOf(config))) return NO_UNCOUNTED_LIGHT;
  const on = curedIn(procedure.phase, config);
  const lampOn = lampBurns(commanded);
  return stepUncountedLight(uncounted, irradianceWPerM2, { lampOn, on }, uncountedS);
}

/** Which of the counted light is shown, in a cure and until the gap after it is judged. */
export function proveLight(
  { scene: { proof }, procedure, commanded, watch }: RepairState,
  reading: Reading,
  config: RepairConfig,
  dtS: number,
): LightProof {
  if (beginsField(procedure.phase, workPlanOf(config))) return NO_PROOF;
  const idle = proof.piece === null && proof.failed === null;
  if (idle && !CURE_PHASES.has(procedure.phase)) return proof;
  const shareRatio = lightShareRatioOf(reading, commanded, config);
  const seen = {
    irradianceWPerM2: lampsOwn(reading, shareRatio, config),
    lampOn: lampBurns(commanded),
    on: curedIn(procedure.phase, config),
    steady: watch.light.oddS < UNSTEADY_S,
    // While the lamp comes on it is dim for a moment, and that light is a small part of a piece.
    confirmed: watch.lampOnForS < 1 || (shareRatio ?? 0) >= limitOf(config, TOO_DIM, 1),
    sequence: reading.sequence,
  };
  return stepLightProof(proof, seen, gapLimitsOf(config), dtS);
}

/** The record of a gap that showed nothing, in the tick in which it failed. */
export function failedGapEvents({ proof: { failed } }: RepairScene): readonly UnstampedEvent[] {
  if (failed === null) return NO_EVENTS;
  const { on, why, lostJPerM2 } = failed;
  return [{ kind: 'gap-failed', portion: on === 'both' ? null : on, why, lostJPerM2 }];
}

const NO_EVENTS: readonly UnstampedEvent[] = [];
/** Several samples in a row, or as many single ones in one stretch of light. */
const UNSTEADY_S = 0.25;

const curedIn = (phase: PhaseId, config: RepairConfig): CuredBy =>
  config.profile.curing === 'together' ? 'both' : portionIn(phase, config);

const limitOf = ({ unit }: RepairConfig, place: number, otherwise: number): number =>
  unit.alarms[place]?.limitSI ?? otherwise;

const gapLimitsOf = memoized((config: RepairConfig): GapLimits => {
  const { coverageFactor, zeroWPerM2 } = config.unit.doseUncertaintyTerms;
  return {
    darkestWPerM2: limitOf(config, NOT_DARK, 0),
    dimmestWPerM2: limitOf(config, NO_LIGHT, Number.POSITIVE_INFINITY),
    coveredZeroWPerM2: coverageFactor * zeroWPerM2,
  };
});

/**
 * The reading, unless this lamp cannot give so much: such light buys no dose, from the first tick
 * on. The alarm for it comes later, and without this rule a person who resumes the job again and
 * again would reach the target with it.
 */
const lampsOwn = (
  { irradianceWPerM2 }: Reading,
  shareRatio: number | null,
  config: RepairConfig,
): Measured =>
  (shareRatio ?? 0) > limitOf(config, TOO_BRIGHT, Number.POSITIVE_INFINITY)
    ? NOT_THE_LAMPS
    : irradianceWPerM2;

const NOT_THE_LAMPS: Measured = { ok: false, fault: 'implausible' };
const TOO_BRIGHT = placeOfAlarm('light-too-bright');
const TOO_DIM = placeOfAlarm('light-too-dim');
const NOT_DARK = placeOfAlarm('light-not-dark');
const NO_LIGHT = placeOfAlarm('lamp-no-light');

/** More than a failing heat sink leaves of a lamp's light; no division by nothing. */
const LEAST_DROOP_RATIO = 0.2;

/**
 * Light relative to what the lamp is known to give at this drive and heat sink temperature; null
 * where the light or the lamp's output is not known. Without a heat sink reading it is taken at the
 * temperature at which the output is known.
 */
export function lightShareRatioOf(
  { irradianceWPerM2, heatSinkK }: Reading,
  { lampRatio }: Pick<Actuators, 'lampRatio'>,
  { unit }: Pick<RepairConfig, 'unit'>,
): number | null {
  const { lampLastKnownWPerM2: known, lampDroopPerK, lampKnownAtK } = unit;
  if (known === null || !irradianceWPerM2.ok || lampRatio <= 0) return null;
  const warmerK = heatSinkK.ok ? heatSinkK.value - lampKnownAtK : 0;
  const droopRatio = Math.max(LEAST_DROOP_RATIO, 1 - lampDroopPerK * warmerK);
  return irradianceWPerM2.value / (known * lampRatio * droopRatio);
}

/** A cure may end with a piece this short; a shorter one would only add an interruption. */
const SHORTEST_LAST_PIECE_S = 1;

/** The current phase's dose, for the procedure. */
export function cureInHand(
  { scene: { doses, proof }, procedure }: RepairState,
  config: RepairConfig,
): PhaseContext['cure'] {
  const { doseUncertaintyTerms: terms } = config.unit;
  const portion = portionIn(procedure.phase, config);
  const { doseJPerM2, lampOnS } = doses[portion];
  const shown = proof.portions[portion];
  const target = cureAskedIn(procedure, config);
  const enough =
    (proof.piece?.lampOnS ?? 0) >= SHORTEST_LAST_PIECE_S &&
    cureDone(withOpenPiece(proof, portion, gapLimitsOf(config)), target, terms);
  return {
    done: cureDone(shown, target, terms),
    gapDue: enough || gapIsDue(proof),
    doseJPerM2,
    doseUncertaintyJPerM2: doseUncertaintyJPerM2(shown, terms),
    shownDoseJPerM2: shownJPerM2(shown, terms),
    doseCoverageFactor: terms.coverageFactor,
    lampOnS,
    gapsPassed: shown.gapsPassed,
    gapsFailed: shown.gapsFailed,
    unconfirmedDoseJPerM2: shown.unconfirmedJPerM2,
  };
}

/** What the light sensor shows with the lamp off. */
export function lightSeen(
  { scene: { proof } }: RepairState,
  { irradianceWPerM2 }: Reading,
  config: RepairConfig,
): PhaseContext['light'] {
  const { darkestWPerM2 } = gapLimitsOf(config);
  return {
    dark: irradianceWPerM2.ok && irradianceWPerM2.value <= darkestWPerM2,
    judged: proof.piece === null,
  };
}

/** The light of the current cure as it will be shown if the next gap passes. */
function lightInHand({ scene: { proof }, procedure }: RepairState, config: RepairConfig) {
  const portion = portionIn(procedure.phase, config);
  const light = withOpenPiece(proof, portion, gapLimitsOf(config));
  const terms = config.unit.doseUncertaintyTerms;
  const target = cureAskedIn(procedure, config);
  return { light, terms, leftS: cureLeftS(light, proof.litWPerM2 ?? 0, target, terms) };
}

/**
 * For the display: the dose in hand, the remaining time of the cure, and the margin by which the
 * dose must exceed its target. A gap leaves all three as they are.
 */
export function doseInHand(state: RepairState, config: RepairConfig) {
  const { light, terms, leftS } = lightInHand(state, config);
  return { doseJPerM2: light.doseJPerM2, leftS, marginJPerM2: marginJPerM2(light, terms) };
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
export function alarmCureOf(config: RepairConfig, state: RepairState): AlarmCure {
  const {
    scene: { doses },
    procedure,
  } = state;
  const forecast = hardestCureOf(config);
  if (procedure.phase === 'self-test') return { needsS: null, ...forecast };
  const portion = portionIn(procedure.phase, config);
  const dose = doses[portion];
  const target = cureAskedIn(procedure, config);
  const lit = dose.lastWPerM2 !== null;
  // Light that showed nothing was still light on the spot.
  const needsS = lit ? dose.lampOnS + lightInHand(state, config).leftS : null;
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
