/** The words of a job beside its display: papers, drawing, and the lines that a run prints. */
import { ENGLISH_PAPERS, type PaperWords } from '../../document/paper-words.ts';
import { type DrawingWords, ENGLISH_DRAWING } from '../../intake/drawing/drawing-words.ts';
import english from '../../panel/catalogues/en/terminal.json' with { type: 'json' };

export type TerminalWords = typeof english;
export type PanelWords = TerminalWords['panel'];

/** Everything that words a job beside the display. */
export interface JobWords extends PaperWords {
  readonly drawing: DrawingWords;
  readonly terminal: TerminalWords;
}

export const ENGLISH_WORDS: JobWords = {
  ...ENGLISH_PAPERS,
  drawing: ENGLISH_DRAWING,
  terminal: english,
};
