/**
 * The questionnaire as a conversation: typed text goes in, lines to print and the next question
 * come out. It decides what is asked next, when two contradictory answers are asked again, and when
 * a converted size must be confirmed. Terminal and files are left to `src/cli/`.
 */
import { type AnswerContext, hearAnswer, yesOrNo } from './answer-text.ts';
import type { Next } from './brief.ts';
import { type Conflict, conflictsOf } from './intake-conflicts.ts';
import type { Question } from './question.ts';
import { askingLines, contradictionLines, helpLines, shownAnswer } from './question-lines.ts';
import { type Answers, askedOf, QUESTIONS, refusalOf, sheetOf } from './questions.ts';

type Waiting =
  | { readonly for: 'answer' }
  | { readonly for: 'yes-or-no'; readonly yes: unknown; readonly no: unknown }
  | { readonly for: 'which-is-wrong'; readonly conflict: Conflict };

export interface Conversation {
  readonly answers: Answers;
  /** The open question; null when all are answered. */
  readonly at: Question | null;
  /** Questions answered in this conversation, the latest last. */
  readonly trail: readonly Question[];
  readonly waiting: Waiting;
  readonly over: 'no' | 'complete' | 'saved';
}

export interface Turn {
  readonly state: Conversation;
  readonly lines: readonly string[];
}

/** Continues from existing answers; contradictions among them are asked first. */
export function beginConversation(answers: Answers, context: AnswerContext): Turn {
  const state: Conversation = {
    answers,
    at: null,
    trail: [],
    waiting: { for: 'answer' },
    over: 'no',
  };
  return goOn(state, context);
}

export function hearLine(state: Conversation, typed: string, context: AnswerContext): Turn {
  const word = typed.trim();
  if (state.over !== 'no' || state.at === null) return { state, lines: [] };
  if (word === 'save') return { state: { ...state, over: 'saved' }, lines: [] };
  if (word === '<') return goBack(state, context);
  if (state.waiting.for === 'which-is-wrong') return choose(state, state.waiting.conflict, word);
  if (word === '?') return { state, lines: helpLines(state.at, context) };
  if (state.waiting.for === 'yes-or-no') return confirm(state, state.waiting, word, context);
  return word === '' ? hearNothing(state, state.at, context) : hear(state, state.at, word, context);

  function choose(from: Conversation, conflict: Conflict, said: string): Turn {
    const path = said === '1' || said === '2' ? conflict.paths[Number(said) - 1] : undefined;
    const wrong = QUESTIONS.find((question) => question.path === path);
    if (wrong === undefined) return { state, lines: contradictionLines(conflict, from.answers) };
    return ask({ ...from, waiting: { for: 'answer' } }, wrong, context);
  }
}

/** Enter keeps the previous answer; without one it asks for help. */
function hearNothing(state: Conversation, at: Question, context: AnswerContext): Turn {
  if (state.answers[at.path] !== undefined) return accept(state, state.answers[at.path], context);
  if (at.answer.kind === 'date') return accept(state, context.today, context);
  if (at.answer.kind === 'text' && at.answer.mayBeEmpty) return accept(state, '', context);
  return { state, lines: helpLines(at, context) };
}

function hear(state: Conversation, at: Question, word: string, context: AnswerContext): Turn {
  const heard = hearAnswer(at, word, context);
  if (heard.kind === 'not-understood') return refuse(state, heard.accepted);
  if (heard.kind === 'ambiguous') return { state, lines: [`  ${heard.words}`] };
  if (heard.kind === 'answer') {
    const turn = accept(state, heard.answer, context);
    return heard.words === undefined
      ? turn
      : { ...turn, lines: [`  ${heard.words}`, ...turn.lines] };
  }
  const waiting = { for: 'yes-or-no', yes: heard.answer, no: heard.asGiven } as const;
  const lines = [`  ${heard.words}. Did you mean ${heard.answer} mm? (y/n)`];
  return { state: { ...state, waiting }, lines };
}

function confirm(
  state: Conversation,
  { yes, no }: Extract<Waiting, { for: 'yes-or-no' }>,
  word: string,
  context: AnswerContext,
): Turn {
  const said = yesOrNo(word);
  if (said === null) return { state, lines: ['  y or n?'] };
  const open: Conversation = { ...state, waiting: { for: 'answer' } };
  if (said) return accept(open, yes, context);
  if (no !== null) return accept(open, no, context);
  return { state: open, lines: state.at === null ? [] : askingLines(state.at, open, context) };
}

const refuse = (state: Conversation, accepted: string): Turn => ({
  state: { ...state, waiting: { for: 'answer' } },
  lines: [`  Accepted: ${accepted}.`],
});

function accept(state: Conversation, answer: unknown, context: AnswerContext): Turn {
  const { at } = state;
  if (at === null) return { state, lines: [] };
  const given = at.sets?.(answer) ?? {};
  const accepted = Object.entries({ [at.path]: answer, ...given })
    .map(([path, one]) => refusalOf(path, one))
    .find((one) => one !== null);
  if (accepted !== undefined) return refuse(state, accepted);
  const trail = [...state.trail.filter((question) => question !== at), at];
  const answers = { ...state.answers, [at.path]: answer, ...given };
  const turn = goOn({ ...state, answers, trail }, context);
  return { state: turn.state, lines: [`  ${shownAnswer(at, answer)}`, ...turn.lines] };
}

/** Contradictions come first, then unanswered questions. */
function goOn(state: Conversation, context: AnswerContext): Turn {
  const conflict = conflictsOf(sheetOf(state.answers), context.today)[0];
  if (conflict !== undefined) return askBack(state, conflict, context);
  if (context.next !== undefined) return goOnBriefly(state, context.next(state.answers), context);
  const next = askedOf(state.answers).find(({ path }) => state.answers[path] === undefined);
  if (next === undefined) return { state: { ...state, at: null, over: 'complete' }, lines: [] };
  return ask(state, next, context);
}

function goOnBriefly(state: Conversation, next: Next | null, context: AnswerContext): Turn {
  if (next === null) return { state: { ...state, at: null, over: 'complete' }, lines: [] };
  const { question, count, lines } = next;
  const asked: Conversation = { ...state, at: question, waiting: { for: 'answer' } };
  return { state: asked, lines: [...lines, ...askingLines(question, asked, context, count)] };
}

function askBack(state: Conversation, conflict: Conflict, context: AnswerContext): Turn {
  const [first, second] = conflict.paths.map((path) =>
    QUESTIONS.find((question) => question.path === path),
  );
  const lines = contradictionLines(conflict, state.answers);
  // Where a day conflicts with the calendar, only the day can be wrong.
  const only = second === undefined ? first : undefined;
  if (only !== undefined) {
    const turn = ask({ ...state, waiting: { for: 'answer' } }, only, context);
    return { state: turn.state, lines: [...lines, ...turn.lines] };
  }
  const at = state.at ?? first ?? null;
  return { state: { ...state, at, waiting: { for: 'which-is-wrong', conflict } }, lines };
}

function ask(state: Conversation, at: Question, context: AnswerContext): Turn {
  const asked: Conversation = { ...state, at, waiting: { for: 'answer' } };
  return { state: asked, lines: askingLines(at, asked, context) };
}

function goBack(state: Conversation, context: AnswerContext): Turn {
  const last = state.trail.at(-1);
  if (last === undefined) return { state, lines: ['  This is the first question.'] };
  return ask({ ...state, trail: state.trail.slice(0, -1) }, last, context);
}
