/**
 * The repair as the controller runs it: the phase table with what a repair watches, measures and
 * shows. It joins rooms that may not import each other and decides nothing of its own.
 */
import { startFrom } from '../../control/controller-state.ts';
import {
  answerIn,
  type Procedure,
  type ProcedureAlarms,
  type TimePassed,
  type Walked,
  type WalkInput,
} from '../../control/procedure.ts';
import { measuredEvents, type UnstampedEvent } from '../../core/events.ts';
import { type Reading, valueOrNull } from '../../core/frame.ts';
import { measuredOfJob } from '../../core/measurements.ts';
import { type PhaseId, SHUT_OFF_PHASES } from '../../core/phases.ts';
import type { Phrase } from '../../core/phrases.ts';
import { NO_PROOF } from '../../cure/light-proof.ts';
import { RESIN_CLOSED } from '../../cure/open-resin.ts';
import { NO_DOSES } from '../../cure/portions.ts';
import { NO_UNCOUNTED_LIGHT } from '../../cure/uncounted-light.ts';
import { faceOf } from '../../panel/screen.ts';
import type { AlarmProfile } from '../../safety/alarm-row.ts';
import { placeOfAlarm } from '../../safety/alarm-table.ts';
import { GLASS_WATCH_START } from '../../safety/watch/glass-watch.ts';
import { HEAT_WATCH_START } from '../../safety/watch/heat-watch.ts';
import { SINK_WATCH_START } from '../../safety/watch/sink-watch.ts';
import { PROCEDURE_START } from '../phase.ts';
import type { Profile } from '../profile.ts';
import {
  alarmCureOf,
  countLight,
  cureInHand,
  failedGapEvents,
  lightSeen,
  lightShareRatioOf,
  missedLight,
  proveLight,
  throughPitMeasurement,
} from './cure/dose-watch.ts';
import { HOLD_QUESTIONS, heldFor } from './held-for.ts';
import { lampHeatLoadOf, lampHeatMeasurements, watchGlass, watchSink } from './lamp-heat.ts';
import { leadOf } from './leads.ts';
import { heatLoadOf, openResinLoadOf, paneMeasurements, watchPane } from './pane-watch.ts';
import { enteredWith } from './reentry.ts';
import { enteredEvent, phaseOf, resume, stepProcedure } from './repair-phases.ts';
import type { Repair, RepairConfig, RepairScene, RepairState } from './repair-state.ts';
import { repairSnapshotOf, repairViewOf } from './repair-view.ts';
import { selfTestFindings } from './self-test.ts';
import { supportMeasurements } from './support-measurements.ts';
import { workPlanOf } from './work-plan.ts';

const START: RepairState = startFrom<Repair>(PROCEDURE_START, {
  doses: NO_DOSES,
  uncounted: NO_UNCOUNTED_LIGHT,
  proof: NO_PROOF,
  heat: HEAT_WATCH_START,
  openResin: RESIN_CLOSED,
  sink: SINK_WATCH_START,
  glass: GLASS_WATCH_START,
});

export const REPAIR: Procedure<Repair> = {
  start: ({ entry }) => (entry === undefined ? START : { ...START, procedure: enteredWith(entry) }),
  rowOf: phaseOf,
  figuresOf: ({ profile }) => profile,
  lampRatioOf: (walk, { profile }) => (phaseOf(walk).lamp(walk) ? profile.cure.lampRatio : null),
  holdsAs: ({ phase }) => phase,
  watch,
  alarmsOf,
  noticed: failedGapEvents,
  sceneAfter,
  step,
  resume,
  entered: enteredEvent,
  outcomeOf: ({ outcome }) => outcome,
  heldBy: ({ why }) => ({ record: why, shown: { say: 'held-by-hand' } }),
  holdQuestions: HOLD_QUESTIONS,
  heldFor,
  stoppedBy: ({ by, why }) => ({
    record: why,
    shown: { say: by === 'interrupt' ? 'interrupted' : 'stopped-held' },
  }),
  snapshotOf: repairSnapshotOf,
  doseOf: (snapshot) => snapshot,
  subjectOf: ({ phase, cycle }) => `${phase} ${cycle}`,
  detailOf: () => null,
  faceOf: (seen, state, snapshot, config) => faceOf(repairViewOf(seen, state, snapshot, config)),
};

function watch(
  state: RepairState,
  reading: Reading,
  config: RepairConfig,
  { gapS, dtS }: TimePassed,
): RepairScene {
  const { heat, openResin } = watchPane(state, reading, config, gapS);
  return {
    doses: countLight(state, reading, config, dtS),
    proof: proveLight(state, reading, config, dtS),
    uncounted: missedLight(state, reading, config, gapS - dtS),
    heat,
    openResin,
    sink: watchSink(state, reading, config, gapS),
    glass: watchGlass(state, reading, config, gapS),
  };
}

/** A person who resumes after that alarm has put in a fresh drop. */
function sceneAfter(scene: RepairScene, events: readonly UnstampedEvent[]): RepairScene {
  const renewed = events.some(
    (event) => event.kind === 'alarm' && event.alarm === 'daylight-set' && event.to === 'normal',
  );
  return renewed ? { ...scene, openResin: RESIN_CLOSED } : scene;
}

function step({ config, state, reading, intents, dtS }: WalkInput<Repair>): Walked<Repair> {
  const {
    state: walk,
    lead,
    events,
  } = stepProcedure(state.procedure, {
    profile: config.profile,
    plan: workPlanOf(config),
    damageType: config.job.damage.type,
    volumeM3: config.unit.chamberVolumeM3,
    leakLimitPaM3PerS: leakLimitOf(config),
    greatestRatio: config.unit.pump.greatestRatio,
    airLastJobPa: config.unit.airLastJobPa,
    pressurePa: valueOrNull(reading.pressurePa),
    pumpAheadPa: state.watch.air.aheadPa,
    glassK: valueOrNull(reading.glassK),
    findings: findingsOf(config, state, reading),
    entryAt: config.entry?.at,
    answer: answerIn(intents),
    lampLastKnownWPerM2: config.unit.lampLastKnownWPerM2,
    cure: cureInHand(state, config),
    light: lightSeen(state, reading, config),
    dtS,
  });
  const led = lead === null ? null : leadOf(lead, walk.phase, config);
  if (events.length === 0) return { walk, events, lead: led };
  const before = state.procedure.phase;
  const after = { procedure: walk, scene: state.scene };
  const measured = [
    ...paneMeasurements(before, after, config),
    ...throughPitMeasurement(before, after, config),
    ...pumpMeasurement(before, walk.phase, state.watch.air.strengthRatio),
    ...lampHeatMeasurements(before, after, config),
    ...supportMeasurements(before, { ...state, procedure: walk }, config),
  ];
  return { walk, events: [...events, ...measured], lead: led };
}

/** At the end of each vacuum: what the pulls so far have shown of the pump. */
const pumpMeasurement = (
  before: PhaseId,
  after: PhaseId,
  pumpStrengthRatio: number | null,
): readonly UnstampedEvent[] =>
  before === 'vacuum-dwell' && after !== before && pumpStrengthRatio !== null
    ? measuredEvents(measuredOfJob({ pumpStrengthRatio }))
    : [];

const LEAK = placeOfAlarm('leak');

/** A unit's own limit acts where it is the tighter one. */
const leakLimitOf = ({ profile, unit }: RepairConfig): number =>
  Math.min(
    profile.sealCheck.leakLimitPaM3PerS,
    unit.alarms[LEAK]?.limitSI ?? Number.POSITIVE_INFINITY,
  );

function alarmsOf(config: RepairConfig, state: RepairState, reading: Reading): ProcedureAlarms {
  const { procedure } = state;
  const cure = alarmCureOf(config, state);
  return {
    phase: procedure.phase,
    leakRatePaM3PerS: procedure.leakRatePaM3PerS,
    darkLookS: procedure.darkLookS,
    lightShareRatio: lightShareRatioOf(reading, state.commanded, config),
    gapFailed: state.scene.proof.failed?.why ?? null,
    cureNeedsS: cure.needsS,
    lampForecastS: cure.forecastS,
    heating: heatLoadOf(config, state),
    openResin: openResinLoadOf(config, state),
    lampHeat: lampHeatLoadOf(config, state, reading),
    selfTestFindings: findingsOf(config, state, reading),
    proving: null,
    shutOffPa: SHUT_OFF_PHASES.has(procedure.phase) ? procedure.isolatedPa : null,
    profile: alarmProfileOf(config.profile, state, cure.longestS),
  };
}

const NO_FINDINGS: readonly Phrase[] = [];

/** What the self-test finds wrong; empty in other phases. */
function findingsOf(
  { profile, unit }: RepairConfig,
  { procedure }: RepairState,
  reading: Reading,
): readonly Phrase[] {
  if (procedure.phase !== 'self-test') return NO_FINDINGS;
  return selfTestFindings(reading, profile, unit.pump.greatestRatio);
}

function alarmProfileOf(
  profile: Profile,
  { procedure }: RepairState,
  longestCureS: number,
): AlarmProfile {
  const { reachWithinS, answerWithinS } = phaseOf(procedure);
  return {
    lowestPa: profile.vacuum.lowestPa,
    highestGaugePa: profile.pressure.highestGaugePa,
    reachWithinS: reachWithinS(profile),
    answerWithinS,
    leakLimitPaM3PerS: profile.sealCheck.leakLimitPaM3PerS,
    lowestGlassK: profile.glass.lowestK,
    highestGlassK: profile.glass.highestK,
    longestCureS,
  };
}
