/**
 * The words of a repair's screens, from plain values: the step's number and prompt, the live values
 * that take a line of it, its longer explanation, and why the job is held or over. How a screen is
 * framed is decided in `face.ts`.
 */

import type { BatchState, Snapshot } from '../events.ts';
import type { Signals } from '../frame.ts';
import { type PhaseId, STEP_NUMBERS } from '../phases.ts';
import type { AdviceKey, Catalogue } from './catalogue.ts';
import { buttonLine, type Face, signalsOf } from './face.ts';
import { daylightLine, type LiveValues, liveLine, marginLine } from './live-line.ts';
import { helpPages, reasonPages, type ShownAlarm, type ShownReason } from './page-words.ts';

export interface View {
  readonly catalogue: Catalogue;
  readonly batch: BatchState;
  readonly phase: PhaseId;
  readonly kind: Face['kind'];
  readonly notClearAdvice: AdviceKey;
  /** The unacknowledged alarm of highest rank. */
  readonly alarm: ShownAlarm | null;
  /** Whether any alarm that is not a mere warning is in force. */
  readonly alarmStops: boolean;
  /** Why the job is held, stopped or aborted. */
  readonly why: ShownReason;
  /** A held job asks whether it is to be ended. */
  readonly asksEnd: boolean;
  /** Page of the longer explanation; null while it is closed. */
  readonly page: number | null;
  readonly live: LiveValues;
  readonly snapshot: Snapshot;
}

export const composeSignals = (view: View): Signals => signalsOf(faceOf(view));

export function faceOf(view: View): Face {
  const { catalogue, batch, kind, phase, alarm, alarmStops, asksEnd, page, live } = view;
  return {
    catalogue,
    batch,
    kind,
    alarm,
    alarmStops,
    asksEnd,
    page,
    phaseElapsedS: live.phaseElapsedS,
    mark: STEP_NUMBERS[phase],
    title: catalogue.prompts[phase].title,
    lines: () => linesOf(view),
    // A repair asks for no number.
    buttons: () => buttonLine(catalogue, kind === 'entry' ? 'confirm' : kind),
    help: () => helpPages(view),
    why: () => reasonPages(view.why, catalogue),
  };
}

function linesOf({ phase, kind, catalogue, live, snapshot }: View): readonly [string, string] {
  const [first, second] = catalogue.prompts[phase].lines;
  return [
    liveLine(phase, live, snapshot, catalogue) ?? first,
    marginLine(phase, live, snapshot, catalogue) ??
      daylightLine(kind !== 'automatic', live, catalogue) ??
      second,
  ];
}
