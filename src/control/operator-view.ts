/**
 * Decides when the panel is composed and which page of which screen is open, alike for every
 * procedure. The procedure supplies the screen's contents. It changes nothing but pages.
 */

import { type Seen, signalsOf } from '../panel/face.ts';
import { foremost } from '../safety/alarms.ts';
import { forcesStop, shownAlarm } from './batch-step.ts';
import {
  heldQuestion,
  type ProcedureTypes,
  type ControllerState as State,
} from './controller-state.ts';
import type { Intent } from './intents.ts';
import type { Procedure, Tick } from './procedure.ts';

/** Live values on a display change no faster than an eye can read them. */
const COMPOSE_EVERY_S = 0.2;
/** How long the buzzer is asked to tell of a press that was refused. */
const WRONG_KEY_S = 0.5;

/** Composes the panel when its subject changes, and often enough for live values. */
export function showPanel<P extends ProcedureTypes>(
  state: State<P>,
  snapshot: P['snapshot'],
  config: P['config'],
  procedure: Procedure<P>,
): State<P> {
  const { shown, page, why } = state;
  const { subject } = state.screen;
  const detail = procedure.detailOf(state.procedure);
  const wrongKey = state.screen.heededS < WRONG_KEY_S;
  const same =
    subject === shown.subject &&
    page === shown.page &&
    why === shown.why &&
    detail === shown.detail &&
    wrongKey === shown.wrongKey;
  if (same && snapshot.timeS - shown.atS < COMPOSE_EVERY_S) return state;
  const seen = seenOf(state, wrongKey, config, procedure);
  const signals = signalsOf(procedure.faceOf(seen, state, snapshot, config));
  return {
    ...state,
    shown: { signals, subject, page, why, detail, wrongKey, atS: snapshot.timeS },
  };
}

function seenOf<P extends ProcedureTypes>(
  { batch, alarms, why, page, procedure: walk }: State<P>,
  wrongKey: boolean,
  { catalogue }: P['config'],
  { rowOf }: Procedure<P>,
): Seen {
  const alarm = foremost(alarms);
  return {
    catalogue,
    batch,
    kind: rowOf(walk).kind,
    alarm: alarm === null ? null : shownAlarm(alarm),
    alarmStops: forcesStop(alarms),
    asks: heldQuestion(why),
    mustEnd: why?.mustEnd === true,
    wrongKey,
    page,
    phaseElapsedS: walk.elapsedS,
  };
}

/** Opens, turns and closes pages, and notes when the screen changed and a press was refused. */
export function turnScreen<P extends ProcedureTypes>(
  before: State<P>,
  intents: readonly Intent[],
  { procedure, events }: Tick<P>,
): State<P> {
  const wrong = events.some(({ kind }) => kind === 'refused');
  const state = wrong ? { ...before, screen: { ...before.screen, heededS: 0 } } : before;
  const alarm = foremost(state.alarms);
  const question = heldQuestion(state.why);
  const asked = question === null ? '' : ` ${question}?`;
  const subject = alarm?.row.id ?? `${state.batch} ${procedure.subjectOf(state.procedure)}${asked}`;
  if (subject !== state.screen.subject) {
    return { ...state, page: null, screen: { ...state.screen, subject, shownS: 0 } };
  }
  const turn = intents.findLast(({ kind }) => kind === 'turn-page' || kind === 'close-help');
  return turn === undefined ? state : { ...state, page: pageAfter(state, turn.kind) };
}

/** The first page of a longer explanation is 0; alarms and held jobs show page 0 from the start. */
function pageAfter(
  { page, alarms, batch }: State<ProcedureTypes>,
  kind: Intent['kind'],
): number | null {
  if (kind === 'close-help') return null;
  const openFromStart = foremost(alarms) !== null || batch !== 'running';
  return page === null ? (openFromStart ? 1 : 0) : page + 1;
}
