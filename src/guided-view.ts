/**
 * What a person sees in a guided procedure: status lamp, buzzer, which page of which screen is open,
 * and a snapshot for everything else. The four lines of the display are written in
 * `guided-screen.ts`.
 */

import { forcesStop } from './batch-moves.ts';
import { type Reading, type Signals, valueOrNull } from './frame.ts';
import { stepOf } from './guided/progress.ts';
import { asksNumber } from './guided-batch.ts';
import { guidedDisplay } from './guided-screen.ts';
import type { GuidedConfig, GuidedSnapshot, GuidedState } from './guided-state.ts';
import type { Intent } from './intents.ts';
import { foremost } from './safety/alarms.ts';

export function guidedSnapshot(state: GuidedState, reading: Reading): GuidedSnapshot {
  const { progress } = state;
  return {
    timeS: reading.timeS,
    batch: state.batch,
    step: progress.step,
    pressurePa: valueOrNull(reading.pressurePa),
    setPointPa: state.setPointPa,
    atmospherePa: progress.atmospherePa,
    irradianceWPerM2: valueOrNull(reading.irradianceWPerM2),
    glassK: valueOrNull(reading.glassK),
    heatSinkK: valueOrNull(reading.heatSinkK),
    supplyV: valueOrNull(reading.supplyV),
    asksNumber: asksNumber(state),
  };
}

/** Live values on a display change no faster than an eye can read them. */
const COMPOSE_EVERY_S = 0.5;

/** Composes the panel anew when what it is about changes, and often enough for live values. */
export function showGuided(
  state: GuidedState,
  reading: Reading,
  config: GuidedConfig,
): GuidedState {
  const { shown, page, progress, screen } = state;
  const of = `${screen.subject} ${page} ${progress.entry?.steps}`;
  if (of === shown.of && reading.timeS - shown.atS < COMPOSE_EVERY_S) return state;
  const signals: Signals = {
    display: guidedDisplay(config, state, reading),
    status: statusOf(state),
    buzzer: buzzerOf(state),
  };
  return { ...state, shown: { signals, of, atS: reading.timeS } };
}

/** IEC 60073: red danger, yellow abnormal, blue a person must act, green normal. */
function statusOf(state: GuidedState): Signals['status'] {
  const { batch, progress, alarms } = state;
  const alarm = foremost(alarms);
  if (alarm?.row.action === 'abort' || batch === 'aborting' || batch === 'aborted') {
    return { colour: 'red', flashing: alarm !== null };
  }
  if (alarm !== null || forcesStop(state.alarms))
    return { colour: 'yellow', flashing: alarm !== null };
  const works = batch === 'running' ? stepOf(progress).kind === 'automatic' : batch === 'complete';
  return { colour: works ? 'green' : 'blue', flashing: false };
}

/** The buzzer calls where somebody is asked for, and once more where an alarm wants to be seen. */
function buzzerOf({ alarms, batch, progress }: GuidedState): Signals['buzzer'] {
  const alarm = foremost(alarms);
  if (alarm !== null) return alarm.row.action === 'warn' ? 'once' : 'repeating';
  const asks = batch === 'running' && stepOf(progress).kind !== 'automatic';
  return asks && progress.elapsedS < 0.5 ? 'once' : 'off';
}

/** Opens, turns and closes pages, and notes when the screen turned to another subject. */
export function turnGuidedPage(state: GuidedState, intents: readonly Intent[]): GuidedState {
  const alarm = foremost(state.alarms)?.row.id;
  const asked = 'heldFor' in state.why ? ' end?' : '';
  const at = `${state.batch} ${state.progress.step} ${state.progress.points.length}${asked}`;
  const subject = alarm ?? at;
  if (subject !== state.screen.subject) {
    return { ...state, page: null, screen: { subject, shownS: 0 } };
  }
  const turn = intents.findLast(({ kind }) => kind === 'turn-page' || kind === 'close-help');
  if (turn === undefined) return state;
  if (turn.kind === 'close-help') return { ...state, page: null };
  // Alarms, held and ended procedures show their first page from the start.
  const openFromStart = alarm !== undefined || state.batch !== 'running';
  return { ...state, page: state.page === null ? (openFromStart ? 1 : 0) : state.page + 1 };
}
