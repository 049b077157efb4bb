/**
 * What a person sees of a repair: the view that the panel draws, and the snapshot for all other
 * consumers. It judges nothing.
 */

import type { Snapshot } from '../../core/events.ts';
import { lampBurns, type Reading, valueOrNull } from '../../core/frame.ts';
import { CURE_PHASES } from '../../core/phases.ts';
import { permissibleEyeTimeS, permissibleSkinTimeS } from '../../cure/uv-hazard.ts';
import type { Seen } from '../../panel/face.ts';
import type { LiveValues } from '../../panel/live-line.ts';
import type { ShownReason } from '../../panel/page-words.ts';
import type { PlaceAlong } from '../../panel/place-line.ts';
import type { View } from '../../panel/screen.ts';
import type { Places } from '../places.ts';
import { doseInHand } from './cure/dose-watch.ts';
import { cureAskedIn, isFoundSoft } from './cure/further-cure.ts';
import { portionIn } from './cure/job-target.ts';
import { legLimitsOf } from './leg-limits.ts';
import { daylightToShow, heatLoadOf } from './pane-watch.ts';
import { cyclesHere } from './positions.ts';
import { isResinLiquid } from './reentry.ts';
import { phaseOf } from './repair-phases.ts';
import type { RepairConfig, RepairState } from './repair-state.ts';
import { workPlanOf } from './work-plan.ts';

export function repairSnapshotOf(
  state: RepairState,
  reading: Reading,
  config: RepairConfig,
): Snapshot {
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
    doseJPerM2: state.scene.doses[portion].doseJPerM2,
    targetJPerM2: cureAskedIn(state.procedure, config).targetJPerM2,
    glassK: valueOrNull(reading.glassK),
    heatSinkK: valueOrNull(reading.heatSinkK),
    supplyV: valueOrNull(reading.supplyV),
  };
}

/** Placeholder before a job was ever held; no screen shows it. */
const NO_REASON: ShownReason = { say: 'held-by-hand' };

export function repairViewOf(
  seen: Seen,
  state: RepairState,
  snapshot: Snapshot,
  config: RepairConfig,
): View {
  // Field by field, as in `stateActing`.
  return {
    catalogue: seen.catalogue,
    batch: seen.batch,
    kind: seen.kind,
    alarm: seen.alarm,
    alarmStops: seen.alarmStops,
    asks: seen.asks,
    mustEnd: seen.mustEnd,
    wrongKey: seen.wrongKey,
    page: seen.page,
    phaseElapsedS: seen.phaseElapsedS,
    phase: state.procedure.phase,
    notClearAdvice: config.profile.notClearAdvice,
    why: state.why?.shown ?? NO_REASON,
    resinWet: isResinLiquid(state.procedure, config.entry) || isFoundSoft(state.procedure),
    live: liveValues(state, snapshot, config),
    snapshot,
  };
}

function liveValues(state: RepairState, snapshot: Snapshot, config: RepairConfig): LiveValues {
  const { profile, job } = config;
  const { procedure } = state;
  const plan = workPlanOf(config);
  const dose = doseInHand(state, config);
  const { lastsS } = phaseOf(procedure);
  const dwellLeftS = lastsS === undefined ? null : lastsS(procedure, profile) - procedure.elapsedS;
  return {
    phaseElapsedS: procedure.elapsedS,
    leftS: CURE_PHASES.has(procedure.phase) ? dose.leftS : dwellLeftS,
    doseInHandJPerM2: dose.doseJPerM2,
    doseMarginJPerM2: dose.marginJPerM2,
    daylightShare: daylightToShow(config, state),
    sealWhy: procedure.sealWhy,
    legLimitM: legLimitsOf(config).longestM,
    remedy: procedure.remedy,
    rechargeWhy: procedure.rechargeWhy,
    glass: {
      ...profile.glass,
      rateKPerS: state.scene.heat.rateKPerS,
      allowedKPerS: heatLoadOf(config, state).allowedRateKPerS,
    },
    vacuum: {
      askedPa: profile.vacuum.setPointPa,
      givenPa: procedure.vacuumPa ?? profile.vacuum.setPointPa,
    },
    cycles: {
      cycle: cyclesHere(procedure),
      ...profile.cycles,
      vacuumLeftS: Math.max(0, profile.vacuum.longestDwellS - procedure.vacuumHeldS),
    },
    places: {
      position: placeAlong(procedure.position, plan.positions),
      field: placeAlong(procedure.field, plan.fields),
    },
    damage: job.damage,
    sheet: {
      reference: job.reference,
      vehicle: config.vehicle ?? null,
      resin: job.resin,
      goesOnAt: config.entry?.at ?? null,
    },
    outcome: procedure.outcome,
    light: lightOf(state, snapshot, config),
  };
}

const placeAlong = (place: number, { count, apartM }: Places): PlaceAlong => ({
  place,
  of: count,
  apartM,
});

/** The lamp's measured light while it is on, otherwise its last measured output. */
function lightOf(
  { commanded }: RepairState,
  { irradianceWPerM2 }: Snapshot,
  { unit }: RepairConfig,
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
