/** The words of the lines that a run prints on the terminal, one file a language. */
import { ENGLISH_PAPERS, type PaperWords } from '../../document/paper-words.ts';
import english from '../../panel/catalogues/en/terminal.json' with { type: 'json' };

export type TerminalWords = typeof english;

/** Everything that words a job beside the display. */
export interface JobWords extends PaperWords {
  readonly terminal: TerminalWords;
}

export const ENGLISH_WORDS: JobWords = { ...ENGLISH_PAPERS, terminal: english };
