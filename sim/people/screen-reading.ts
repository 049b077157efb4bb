/**
 * Reads the first line of the display as a person would: the kind of screen, and the step that it
 * concerns. Only this file turns numbers and marks on the display into names.
 */
import type { DisplayLines } from '../../src/core/frame.ts';
import { STEP_IDS, STEP_MARKS, type StepId } from '../../src/core/guided-events.ts';
import { PHASE_IDS, PHASES, type PhaseId, STEP_NUMBERS } from '../../src/core/phases.ts';

export type ScreenKind = 'step' | 'held' | 'end-asked' | 'why-asked' | 'help' | 'alarm' | 'end';

/** A phase of a repair, or a step of a guided procedure. */
export type SeenStep = PhaseId | StepId;

export interface Screen {
  readonly kind: ScreenKind;
  /** Null on alarm and end screens. */
  readonly step: SeenStep | null;
}

const STEP_SHOWN: ReadonlyMap<string, SeenStep> = new Map<string, SeenStep>([
  ...PHASE_IDS.map((phase) => [STEP_NUMBERS[phase], phase] as const),
  ...STEP_IDS.map((step) => [STEP_MARKS[step], step] as const),
]);

/** The step for a number or mark on the display; null for one that no step has. */
export const stepShownAs = (shown: string): SeenStep | null => STEP_SHOWN.get(shown) ?? null;

export const isPhase = (step: SeenStep): step is PhaseId => step in PHASES;

/** By the sign after the number; every other mark is a page of help. */
const KIND_OF_MARK: Readonly<Record<string, ScreenKind>> = {
  '': 'step',
  '|| ': 'held',
  '||? ': 'end-asked',
  '|? ': 'why-asked',
};

/** Reads the first line of the display; null when it is blank. */
export function readScreen([first]: DisplayLines): Screen | null {
  if (first.startsWith('! ')) return { kind: 'alarm', step: null };
  if (first.startsWith('-- ')) return { kind: 'end', step: null };
  const match = /^(\d\.\d{1,2}[a-h]?|[PUTH]\d{1,2}) (\|\|\?? |\|\? |!?\? )?/.exec(first);
  const step = stepShownAs(match?.[1] ?? '');
  if (step === null) return null;
  return { kind: KIND_OF_MARK[match?.[2] ?? ''] ?? 'help', step };
}
