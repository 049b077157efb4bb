/**
 * The words of a repair's screens, from plain values: the step's number and prompt, live values in
 * place of a line, the longer explanation, and why the job is held or over. `face.ts` frames the
 * screen.
 */

import type { Snapshot } from '../core/events.ts';
import { type PhaseId, STEP_NUMBERS } from '../core/phases.ts';
import type { AdviceKey } from './catalogue.ts';
import { cycleLine } from './cycle-line.ts';
import { buttonLine, type Face, type Seen } from './face.ts';
import {
  briefLine,
  daylightLine,
  glassLineToDo,
  type LiveValues,
  liveLine,
  marginLine,
} from './live-line.ts';
import { helpPages, type Page, reasonPages, type ShownReason } from './page-words.ts';

export interface View extends Seen {
  readonly phase: PhaseId;
  readonly notClearAdvice: AdviceKey;
  /** Why the job is held, stopped or aborted. */
  readonly why: ShownReason;
  /** Liquid resin is in the break. */
  readonly resinWet: boolean;
  readonly live: LiveValues;
  readonly snapshot: Snapshot;
}

export function faceOf(view: View): Face {
  const { catalogue, kind, phase } = view;
  return {
    seen: view,
    mark: STEP_NUMBERS[phase],
    title: catalogue.prompts[phase].title,
    lines: () => linesOf(view),
    // A repair asks for no number.
    buttons: () => buttonLine(catalogue, kind === 'entry' ? 'confirm' : kind),
    help: () => helpPages(view),
    why: () => whyPages(view),
    brief: () =>
      kind === 'automatic' ? briefLine(phase, view.live, view.snapshot, catalogue) : null,
  };
}

/** A job that is over says what to do with resin that was left wet. */
function whyPages({ why, batch, resinWet, catalogue }: View): readonly Page[] {
  const over = batch === 'stopped' || batch === 'aborted';
  const wet = over && resinWet ? reasonPages({ say: 'resin-wet' }, catalogue) : [];
  return [...reasonPages(why, catalogue), ...wet];
}

function linesOf({ phase, kind, catalogue, live, snapshot }: View): readonly [string, string] {
  const [first, prompted] = catalogue.prompts[phase].lines;
  const second =
    phase === 'try-remedy' && live.remedy !== null
      ? catalogue.remedies[live.remedy].lines[1]
      : prompted;
  return [
    liveLine(phase, live, snapshot, catalogue) ?? first,
    marginLine(phase, live, snapshot, catalogue) ??
      glassLineToDo(phase, live, snapshot, catalogue) ??
      daylightLine(kind !== 'automatic', live, catalogue) ??
      cycleLine(phase, second, live.cycles, live.phaseElapsedS, catalogue) ??
      second,
  ];
}
