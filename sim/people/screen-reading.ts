/**
 * Reads the first line of the display as a person would: the kind of screen, and the step that it
 * concerns. Only this file turns numbers and marks on the display into names.
 */
import type { DisplayLines } from '../../src/core/frame.ts';
import { PHASE_IDS, PHASES, type PhaseId, STEP_NUMBERS } from '../../src/core/phases.ts';

export type ScreenKind = 'step' | 'held' | 'end-asked' | 'help' | 'alarm' | 'end';

/** The mark of a guided procedure's step, as the display shows it. */
export type GuidedMark = `${'P' | 'U' | 'T' | 'H'}${number}`;
/** A step as identified by a reader of the display. */
export type SeenStep = PhaseId | GuidedMark;

export interface Screen {
  readonly kind: ScreenKind;
  /** Null on alarm and end screens. */
  readonly step: SeenStep | null;
}

const PHASE_NUMBERED: ReadonlyMap<string, PhaseId> = new Map(
  PHASE_IDS.map((phase) => [STEP_NUMBERS[phase], phase]),
);
const isMark = (text: string): text is GuidedMark => /^[PUTH]\d{1,2}$/.test(text);

/** The step for a number or mark on the display; null for one that no step has. */
export const stepShownAs = (shown: string): SeenStep | null =>
  PHASE_NUMBERED.get(shown) ?? (isMark(shown) ? shown : null);

export const isPhase = (step: SeenStep): step is PhaseId => step in PHASES;

/** By the sign after the number; every other mark is a page of help. */
const KIND_OF_MARK: Readonly<Record<string, ScreenKind>> = {
  '': 'step',
  '|| ': 'held',
  '||? ': 'end-asked',
};

/** Reads the first line of the display; null when it is blank. */
export function readScreen([first]: DisplayLines): Screen | null {
  if (first.startsWith('! ')) return { kind: 'alarm', step: null };
  if (first.startsWith('-- ')) return { kind: 'end', step: null };
  const match = /^(\d\.\d{1,2}|[PUTH]\d{1,2}) (\|\|\?? |!?\? )?/.exec(first);
  const step = stepShownAs(match?.[1] ?? '');
  if (step === null) return null;
  return { kind: KIND_OF_MARK[match?.[2] ?? ''] ?? 'help', step };
}
