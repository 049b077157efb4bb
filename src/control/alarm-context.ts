/**
 * Gathers the alarms' inputs from the whole controller, as plain values: those common to every
 * procedure, and those that the current procedure adds. It judges nothing.
 */

import type { Reading } from '../core/frame.ts';
import type { AlarmContext } from '../safety/alarm-row.ts';
import type { ControllerState, ProcedureTypes } from './controller-state.ts';
import { lostNumberIn } from './lost-number.ts';
import type { Procedure } from './procedure.ts';

export function alarmContextOf<P extends ProcedureTypes>(
  { alarmsOf }: Procedure<P>,
  config: P['config'],
  state: ControllerState<P>,
  reading: Reading,
  frameGapS: number,
): AlarmContext {
  const { watch } = state;
  const own = alarmsOf(config, state, reading);
  // Field by field, as in `stateActing`.
  return {
    reading,
    batch: state.batch,
    phase: own.phase,
    phaseElapsedS: state.procedure.elapsedS,
    setPointPa: state.setPointPa ?? own.shutOffPa,
    atmospherePa: state.procedure.atmospherePa,
    leakRatePaM3PerS: own.leakRatePaM3PerS,
    frameGapS,
    silentS: reading.timeS - state.signal.sampledAtS,
    clockOffRatio: watch.clock.worstOffRatio,
    clockStoodS: watch.clock.stoodS,
    buttonDownForS: watch.buttonDownForS,
    shieldShown: watch.shield.seenOpenAtS !== null,
    uncountedShare: watch.sampling.uncountedShare,
    lostNumber: lostNumberIn(state, reading.sequence),
    darkLookS: own.darkLookS,
    lightShareRatio: own.lightShareRatio,
    lightOddS: watch.light.oddS,
    gapFailed: own.gapFailed,
    pumpAheadPa: watch.air.aheadPa,
    dwellLeakPaM3PerS: watch.dwell.leakPaM3PerS,
    lampOnForS: watch.lampOnForS,
    lampOffForS: watch.lampOffForS,
    ventOpenForS: watch.ventOpenForS,
    cureNeedsS: own.cureNeedsS,
    lampForecastS: own.lampForecastS,
    heating: own.heating,
    openResin: own.openResin,
    lampHeat: own.lampHeat,
    selfTestFindings: own.selfTestFindings,
    proving: own.proving,
    profile: own.profile,
  };
}
