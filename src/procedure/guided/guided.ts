/**
 * The guided procedures (calibrations and health test) as the controller runs them: the step tables
 * with what is sampled, dialled, kept and shown. It joins rooms that may not import each other and
 * decides nothing of its own.
 */

import { startFrom } from '../../control/controller-state.ts';
import type { Intent } from '../../control/intents.ts';
import {
  answerIn,
  type Lead,
  type Procedure,
  type ProcedureAlarms,
  type Walked,
  type WalkInput,
} from '../../control/procedure.ts';
import type { UnitSettings } from '../../control/unit-settings.ts';
import type { UnstampedEvent } from '../../core/events.ts';
import type { Frame, Measured, Reading } from '../../core/frame.ts';
import type { AlarmProfile } from '../../safety/alarm-row.ts';
import {
  type ChannelSettings,
  glassKOf,
  irradianceWPerM2Of,
  pressurePaOf,
} from '../../signal/channels.ts';
import { guidedFaceOf, guidedSnapshotOf } from './guided-face.ts';
import { guidedResultOf } from './guided-result.ts';
import type { Guided, GuidedConfig, GuidedReason, GuidedSay, GuidedState } from './guided-state.ts';
import { heatOf, LAMP_WATCH_START, lampHeatOf, stepLampWatch } from './lamp-watch.ts';
import { GUIDED_PROCEDURES } from './procedures.ts';
import { type Hands, resumeProgress, type Sampled, stepOf, stepProgress } from './progress.ts';
import { readingOf } from './quantities.ts';
import { RECORD_WORDS } from './record-words.ts';
import { type Progress, progressAt } from './step.ts';

const saying = (say: keyof typeof RECORD_WORDS.ends): GuidedReason => ({
  record: RECORD_WORDS.ends[say],
  shown: { say },
});

function entered({ step }: Progress): UnstampedEvent {
  return { kind: 'step', step };
}

function step(input: WalkInput<Guided>): Walked<Guided> {
  const { config, state, frame, reading, intents, dtS } = input;
  const before = state.procedure;
  const { settings, procedure } = config;
  const ready =
    reading.trips.length === 0 &&
    GUIDED_PROCEDURES[procedure].measures.every((name) => readingOf(name, reading) !== null);
  const sampled = sampledOf(reading, frame, config.unit.channels);
  const hands = handsOf(intents, config, before);
  const walked = stepProgress(before, reading, hands, { settings, ready, dtS, sampled });
  const { progress, lead, refusedNumber } = walked;
  const events: UnstampedEvent[] = [];
  if (refusedNumber) {
    events.push({ kind: 'refused', request: 'number', why: 'no reference shows such a value' });
  }
  for (const point of progress.points.slice(before.points.length)) {
    events.push({ kind: 'point', point });
  }
  if (progress.step !== before.step) events.push(entered(progress));
  return { walk: progress, events, lead: leadOf(lead, progress, config) };
}

function handsOf(intents: readonly Intent[], config: GuidedConfig, progress: Progress): Hands {
  const typed = intents.findLast((intent) => intent.kind === 'enter')?.valueSI ?? null;
  return {
    dialled: intents.flatMap((intent) => (intent.kind === 'dial' ? [intent.button] : [])),
    entered: typed ?? givenFor(config, progress),
    answer: answerIn(intents),
  };
}

/** A value given beforehand is used once, when the entry begins. */
function givenFor({ given }: GuidedConfig, { entry, elapsedS, points }: Progress): number | null {
  if (entry === null || elapsedS > 0) return null;
  return given[points.filter(({ at }) => at !== 'ice').length] ?? null;
}

/** The end of the procedure, or a stop because a step took too long. */
function leadOf(
  lead: 'late' | 'finish' | null,
  progress: Progress,
  config: GuidedConfig,
): Lead<GuidedSay> {
  if (lead === null) return null;
  if (lead === 'finish') {
    // The result was read and decided on.
    const read = { move: 'finish', read: true } as const;
    if (progress.kept === false) {
      return { ...read, ending: 'stopped-by-person', reason: saying('thrownAway') };
    }
    const passed = guidedResultOf(config, progress)?.passed ?? false;
    return { ...read, ending: 'completed', reason: saying(passed ? 'kept' : 'keptNotPassed') };
  }
  const late = RECORD_WORDS.steps[progress.step].late;
  const stop = { move: 'stop', read: false } as const;
  if (late === null) {
    return { ...stop, ending: 'stopped-by-person', reason: saying('nobodyAnswered') };
  }
  return { ...stop, ending: 'alarm', reason: { record: late, shown: { late: progress.step } } };
}

/**
 * Values of the sampled counts, where a channel is valid. The mean of many samples is better
 * without the median of three, which hides steps of the converter and correlates neighbours.
 */
function sampledOf(reading: Reading, { counts }: Frame, channels: ChannelSettings): Sampled {
  const { pressurePa, irradianceWPerM2, glassK } = reading;
  const value = (
    { ok }: Measured,
    count: number | null,
    convert: (count: number, channels: ChannelSettings) => number | null,
  ): number | null => (ok && count !== null ? convert(count, channels) : null);
  return {
    pressure: value(pressurePa, counts.pressure, pressurePaOf),
    light: value(irradianceWPerM2, counts.irradiance, irradianceWPerM2Of),
    temperature: value(glassK, counts.glassTemperature, glassKOf),
  };
}

/**
 * Each step stands for a phase of a repair, whose alarms apply in it. Alarms about resin have
 * nothing to judge; the unit's own limits replace a profile's, and no setting is relaxed.
 */
const alarmsOf = ({ unit }: GuidedConfig, { procedure, scene }: GuidedState): ProcedureAlarms => ({
  phase: stepOf(procedure).alarmPhase,
  leakRatePaM3PerS: null,
  darkLookS: null,
  // A calibration is there to find out what the lamp gives.
  lightShareRatio: null,
  gapFailed: null,
  cureNeedsS: null,
  lampForecastS: null,
  heating: heatOf(scene, unit),
  openResin: NO_RESIN,
  lampHeat: lampHeatOf(scene),
  selfTestFindings: [],
  proving: stepOf(procedure).proving ?? null,
  // There is no glass under a closed test piece.
  shutOffPa: null,
  profile: limitsOf(unit),
});

const NO_RESIN = { criticalShare: null, lit: false } as const;

/** A closed test piece cannot break: for vacuum the alarm's own setting applies. */
const limitsOf = ({ limits }: UnitSettings): AlarmProfile => ({
  lowestPa: 0,
  highestGaugePa: limits.highestPressureGaugePa,
  // Each step has a deadline and a reason of its own.
  reachWithinS: null,
  answerWithinS: null,
  leakLimitPaM3PerS: Number.POSITIVE_INFINITY,
  lowestGlassK: 0,
  highestGlassK: limits.highestGlassK,
  longestCureS: limits.longestLampOnS,
});

export const GUIDED: Procedure<Guided> = {
  start: ({ procedure }) =>
    startFrom<Guided>(progressAt(GUIDED_PROCEDURES[procedure].start), LAMP_WATCH_START),
  rowOf: stepOf,
  figuresOf: ({ settings }) => settings,
  lampRatioOf: (progress) => (stepOf(progress).lamp ? 1 : null),
  holdsAs: (progress) => stepOf(progress).alarmPhase,
  watch: ({ scene, commanded, procedure }, reading, { unit }, { gapS }) => {
    const phase = stepOf(procedure).alarmPhase;
    return stepLampWatch(scene, { reading, commanded, phase }, unit, gapS);
  },
  alarmsOf,
  noticed: () => [],
  sceneAfter: (scene) => scene,
  step,
  resume: resumeProgress,
  entered,
  outcomeOf: () => null,
  heldBy: () => saying('held'),
  // Nothing is on the glass.
  holdQuestions: [],
  heldFor: (_, walk) => ({ walk, why: saying('held'), events: [] }),
  stoppedBy: ({ by, why }) =>
    by === 'interrupt' ? { record: why, shown: { say: 'interrupted' } } : saying('person'),
  snapshotOf: guidedSnapshotOf,
  doseOf: () => null,
  subjectOf: ({ step, points }) => `${step} ${points.length}`,
  detailOf: ({ entry }) => entry?.steps ?? null,
  faceOf: guidedFaceOf,
};
