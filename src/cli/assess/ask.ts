/**
 * Asks the questionnaire on a terminal, line by line. It writes no files: the caller gets the
 * answers, and whether the person finished, saved, left or pressed Ctrl-C.
 */
import { createInterface } from 'node:readline';
import type { Readable, Writable } from 'node:stream';
import { escapedLines } from '../../core/plain-text.ts';
import type { AnswerContext } from '../../intake/sheet/answer-text.ts';
import { beginConversation, hearLine, type Turn } from '../../intake/sheet/conversation.ts';
import { HOW_TO_ANSWER } from '../../intake/sheet/question-lines.ts';
import type { Answers } from '../../intake/sheet/questions.ts';
import { wrapped } from '../terminal/text-columns.ts';

export interface Terminal {
  readonly input: Readable & { readonly isTTY?: boolean };
  readonly output: Writable;
}

export interface Asked {
  readonly end: 'complete' | 'saved' | 'gone' | 'interrupted';
  readonly answers: Answers;
}

const PROMPT = '> ';

/** Wrapped at 80 columns, with the indent of the line. */
function broken(line: string): readonly string[] {
  const indent = line.length - line.trimStart().length;
  return wrapped(line.slice(indent), indent);
}

export function askQuestions(
  { input, output }: Terminal,
  start: Answers,
  context: AnswerContext,
): Promise<Asked> {
  const lines = createInterface({ input, output, terminal: input.isTTY === true, prompt: PROMPT });
  let turn: Turn = beginConversation(start, context);
  const print = (words: readonly string[]): void => {
    if (words.length > 0) output.write(escapedLines(`${words.flatMap(broken).join('\n')}\n`));
  };
  return new Promise((resolve) => {
    let interrupted = false;
    lines.on('SIGINT', () => {
      interrupted = true;
      lines.close();
    });
    lines.on('line', (typed) => {
      turn = hearLine(turn.state, typed, context);
      print(turn.lines);
      if (turn.state.over === 'no') lines.prompt();
      else lines.close();
    });
    lines.on('close', () => {
      const { over, answers } = turn.state;
      if (over === 'no') output.write('\n');
      resolve({ end: over !== 'no' ? over : interrupted ? 'interrupted' : 'gone', answers });
    });
    print([HOW_TO_ANSWER, ...turn.lines]);
    if (turn.state.over === 'no') lines.prompt();
    else lines.close();
  });
}
