/**
 * What a person gets to know of the controller's state: the view that the panel draws, the snapshot
 * for everything else, and which page of which screen is open. It changes nothing but pages.
 */

import { forcesStop } from './batch-moves.ts';
import { shownAlarm } from './batch-step.ts';
import { asksEnd, type ControllerState, type JobConfig } from './controller-state.ts';
import { permissibleEyeTimeS, permissibleSkinTimeS } from './cure/uv-hazard.ts';
import { doseInHand } from './dose-watch.ts';
import type { Snapshot } from './events.ts';
import { lampBurns, type Reading, valueOrNull } from './frame.ts';
import type { Intent } from './intents.ts';
import { jobTargetsOf, portionIn } from './job-target.ts';
import { daylightToShow } from './pane-watch.ts';
import type { LiveValues } from './panel/live-line.ts';
import { composeSignals, type View } from './panel/screen.ts';
import { CURE_PHASES } from './phases.ts';
import { phaseOf } from './procedure/procedure.ts';
import { foremost } from './safety/alarms.ts';

export function snapshotOf(state: ControllerState, reading: Reading, config: JobConfig): Snapshot {
  const portion = portionIn(state.procedure.phase, config);
  return {
    timeS: reading.timeS,
    batch: state.batch,
    phase: state.procedure.phase,
    cycle: state.procedure.cycle,
    pressurePa: valueOrNull(reading.pressurePa),
    setPointPa: state.setPointPa,
    atmospherePa: state.procedure.atmospherePa,
    irradianceWPerM2: valueOrNull(reading.irradianceWPerM2),
    doseJPerM2: state.doses[portion].doseJPerM2,
    targetJPerM2: jobTargetsOf(config)[portion].targetJPerM2,
    glassK: valueOrNull(reading.glassK),
    heatSinkK: valueOrNull(reading.heatSinkK),
    supplyV: valueOrNull(reading.supplyV),
  };
}

/** Live values on a display change no faster than an eye can read them. */
const COMPOSE_EVERY_S = 0.2;

/** Composes the panel anew when its subject changes, and often enough for live values. */
export function showPanel(
  state: ControllerState,
  snapshot: Snapshot,
  config: JobConfig,
): ControllerState {
  const { shown, page, why } = state;
  const { subject } = state.screen;
  const same = subject === shown.subject && page === shown.page && why === shown.why;
  if (same && snapshot.timeS - shown.atS < COMPOSE_EVERY_S) return state;
  const signals = composeSignals(viewOf(state, snapshot, config));
  return { ...state, shown: { signals, subject, page, why, atS: snapshot.timeS } };
}

function viewOf(state: ControllerState, snapshot: Snapshot, config: JobConfig): View {
  const shown = foremost(state.alarms);
  return {
    catalogue: config.catalogue,
    batch: state.batch,
    phase: state.procedure.phase,
    kind: phaseOf(state.procedure).kind,
    notClearAdvice: config.profile.notClearAdvice,
    alarm: shown === null ? null : shownAlarm(shown),
    alarmStops: forcesStop(state.alarms),
    why: state.why.shown,
    asksEnd: asksEnd(state.why),
    page: state.page,
    live: liveValues(state, snapshot, config),
    snapshot,
  };
}

function liveValues(state: ControllerState, snapshot: Snapshot, config: JobConfig): LiveValues {
  const { profile, job } = config;
  const { procedure } = state;
  const dose = doseInHand(state, config);
  const { lastsS } = phaseOf(procedure);
  const dwellLeftS = lastsS === undefined ? null : lastsS(procedure, profile) - procedure.elapsedS;
  return {
    phaseElapsedS: procedure.elapsedS,
    leftS: CURE_PHASES.has(procedure.phase) ? dose.leftS : dwellLeftS,
    doseMarginJPerM2: dose.marginJPerM2,
    daylightShare: daylightToShow(config, state),
    sealWhy: procedure.sealWhy,
    vacuum: {
      askedPa: profile.vacuum.setPointPa,
      givenPa: procedure.vacuumPa ?? profile.vacuum.setPointPa,
    },
    damage: job.damage,
    outcome: procedure.outcome,
    light: lightOf(state, snapshot, config),
  };
}

/** The lamp's light by its sensor while it burns, else as it was when last measured. */
function lightOf(
  { commanded }: ControllerState,
  { irradianceWPerM2 }: Snapshot,
  { unit }: JobConfig,
): LiveValues['light'] {
  const measured = lampBurns(commanded) ? irradianceWPerM2 : null;
  const lampWPerM2 = measured ?? unit.lampLastKnownWPerM2;
  const eyeS = permissibleEyeTimeS(lampWPerM2 ?? 0);
  // No limit within the hour, or no figure: neither is a licence to look.
  if (lampWPerM2 === null || !Number.isFinite(eyeS)) return null;
  return {
    irradianceWPerM2: lampWPerM2,
    eyeS,
    skinS: permissibleSkinTimeS(lampWPerM2, unit.lampPeakNm),
  };
}

/** Opens, turns and closes pages, and notes when the screen turned to another subject. */
export function turnScreen(state: ControllerState, intents: readonly Intent[]): ControllerState {
  const subject = subjectOf(state);
  if (subject !== state.screen.subject) {
    return { ...state, page: null, screen: { subject, shownS: 0 } };
  }
  const turn = intents.findLast(({ kind }) => kind === 'turn-page' || kind === 'close-help');
  return turn === undefined ? state : { ...state, page: pageAfter(state, turn.kind) };
}

function subjectOf({ alarms, batch, procedure, why }: ControllerState): string {
  const alarm = foremost(alarms);
  const asked = asksEnd(why) ? ' end?' : '';
  return alarm === null ? `${batch} ${procedure.phase} ${procedure.cycle}${asked}` : alarm.row.id;
}

/** The first page of a longer explanation is 0; alarms and held jobs show page 0 from the start. */
function pageAfter({ page, alarms, batch }: ControllerState, kind: Intent['kind']): number | null {
  if (kind === 'close-help') return null;
  const openFromStart = foremost(alarms) !== null || batch !== 'running';
  return page === null ? (openFromStart ? 1 : 0) : page + 1;
}
