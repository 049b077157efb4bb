/**
 * Turns typed text into an answer to one question. Sizes are in millimetres; a size with another
 * unit is converted and must be confirmed, never taken as typed. The sheet's schema checks ranges,
 * and `answered-number.ts` reads digits.
 */
import { isPlainText, PLAIN_TEXT } from '../../core/plain-text.ts';
import { type TypedNumber, typedNumber } from './answered-number.ts';
import type { Next } from './brief.ts';
import { isNumber } from './conflict-row.ts';
import { meantMm } from './inch-like.ts';
import { mayBeUnknown, type Question } from './question.ts';

export interface AnswerContext {
  /** YYYY-MM-DD. */
  readonly today: string;
  /** The rule sets that can be chosen. */
  readonly ruleSets: readonly { readonly id: string; readonly name: string }[];
  /** Codes of places with rule sets, and what is proposed for one; null where it is no code. */
  readonly places?: readonly string[];
  readonly placeOf?: (
    typed: string,
  ) => { readonly sets: readonly string[]; readonly words: string } | null;
  /** The short questionnaire; without it every question is asked. */
  readonly next?: (answers: Readonly<Record<string, unknown>>) => Next | null;
}

export type Heard =
  /** `words` where more is to be said about it. */
  | { readonly kind: 'answer'; readonly answer: unknown; readonly words?: string }
  /** A guess that must be confirmed; `asGiven` where the number may also stand as typed. */
  | {
      readonly kind: 'did-you-mean';
      readonly answer: number;
      readonly words: string;
      readonly asGiven: number | null;
    }
  /** Two readings are possible: the question is asked again, and neither is taken. */
  | { readonly kind: 'ambiguous'; readonly words: string }
  | { readonly kind: 'not-understood'; readonly accepted: string };

const UNKNOWN_WORDS = ['u', 'unknown', "don't know", 'don’t know', 'dont know'];
const YES_WORDS = ['y', 'yes'];
const NO_WORDS = ['n', 'no'];

const MM_PER: Readonly<Record<string, number>> = {
  in: 25.4,
  '"': 25.4,
  inch: 25.4,
  cm: 10,
  m: 1000,
};

const answer = (value: unknown) => ({ kind: 'answer', answer: value }) as const;
const notUnderstood = (accepted: string): Heard => ({ kind: 'not-understood', accepted });

export function hearAnswer(question: Question, typed: string, context: AnswerContext): Heard {
  if (!isPlainText(typed.trim())) return notUnderstood(PLAIN_TEXT);
  const text = typed.trim();
  const word = text.toLowerCase();
  if (mayBeUnknown(question) && UNKNOWN_WORDS.includes(word)) return answer('unknown');
  const { answer: kind } = question;
  switch (kind.kind) {
    case 'text':
      return text === '' && !kind.mayBeEmpty ? notUnderstood('a short text') : answer(text);
    case 'date':
      return answer(word === 'today' ? context.today : text);
    case 'yes-no':
      return hearYesNo(word);
    case 'choice':
      return hearChoice(kind.options, word);
    case 'number':
      if (kind.none !== undefined && word === kind.none) return answer(null);
      return hearNumber(question.path, word, kind.unit);
    case 'sides':
      return hearSides(word);
    case 'distances':
      return hearDistances(word, kind.names);
    case 'rule-sets':
      return hearRuleSets(word, context);
  }
}

/** Null where it is neither. */
export function yesOrNo(typed: string): boolean | null {
  const word = typed.trim().toLowerCase();
  if (YES_WORDS.includes(word)) return true;
  return NO_WORDS.includes(word) ? false : null;
}

function hearYesNo(word: string): Heard {
  const said = yesOrNo(word);
  return said === null ? notUnderstood('y or n') : answer(said);
}

function hearChoice(options: readonly { readonly value: string }[], word: string): Heard {
  const chosen = options.find(({ value }, index) => word === value || word === String(index + 1));
  const accepted = `a number from 1 to ${options.length}`;
  return chosen === undefined ? notUnderstood(accepted) : answer(chosen.value);
}

function hearNumber(path: string, word: string, unit: string): Heard {
  const [, digits = '', behind = ''] = /^([-+\d.,/ ]+?)\s*([a-z%"]*)$/.exec(word) ?? [];
  const typed = typedNumber(digits);
  if (typed.kind === 'none') return notUnderstood(`a number in ${unit}, ${DECIMALS}`);
  if (typed.kind === 'either') return ambiguous(typed);
  const { value } = typed;
  if (behind === '' || behind === unit.toLowerCase()) return plainNumber(path, value);
  const factor = MM_PER[behind];
  if (unit !== 'mm' || factor === undefined) return notUnderstood(`a number in ${unit}`);
  const mm = Math.round(value * factor * 10) / 10;
  return { kind: 'did-you-mean', answer: mm, words: `${word} is ${mm} mm`, asGiven: null };
}

const DECIMALS = 'with a decimal point or comma and no thousands separators';

const ambiguous = ({ typed, readings }: Extract<TypedNumber, { kind: 'either' }>): Heard => ({
  kind: 'ambiguous',
  words: `Does ${typed} mean ${readings[0]} or ${readings[1]}? Type it without the comma.`,
});

function plainNumber(path: string, value: number): Heard {
  const mm = meantMm(path, value);
  if (mm === null) return answer(value);
  const words = `${value} mm looks like inches, and ${value} in is ${mm} mm`;
  return { kind: 'did-you-mean', answer: mm, words, asGiven: value };
}

function hearSides(word: string): Heard {
  const names = ['left', 'right', 'top', 'bottom'];
  const heard = hearNumbers(word, names);
  if (heard.kind !== 'answer') return heard;
  const mm = heard.answer as readonly number[];
  return answer(Object.fromEntries(names.map((name, at) => [`${name}Mm`, mm[at]])));
}

/** Unknown both, or two numbers. */
const hearDistances = (word: string, names: readonly [string, string]): Heard =>
  hearNumbers(word, names);

const COUNTS: Readonly<Record<number, string>> = { 2: 'two', 4: 'four' };

function hearNumbers(word: string, names: readonly string[]): Heard {
  const numbers = sidesOf(word).map(typedNumber);
  const accepted = `${COUNTS[names.length]} numbers in mm with spaces between: ${names.join(' ')}, each ${DECIMALS}`;
  if (numbers.length !== names.length) return notUnderstood(accepted);
  const unclear = numbers.find((typed) => typed.kind === 'either');
  if (unclear !== undefined) return ambiguous(unclear);
  const values = numbers.map((typed) => (typed.kind === 'number' ? typed.value : null));
  return values.every(isNumber) ? answer(values) : notUnderstood(accepted);
}

/**
 * Commas alone separate the four; beside spaces or semicolons a comma within digits is a decimal
 * comma.
 */
const sidesOf = (word: string): readonly string[] =>
  /[\s;]/.test(word) ? word.split(/\s*[;]\s*|,\s+|\s+,?\s*/) : word.split(',');

function hearRuleSets(word: string, { ruleSets, placeOf }: AnswerContext): Heard {
  if (word === 'none') return answer([]);
  const place = placeOf?.(word) ?? null;
  if (place !== null) return { ...answer(place.sets), words: place.words };
  const wanted = word.split(/[\s,;]+/);
  const chosen = wanted.map((one) =>
    ruleSets.find(({ id }, i) => one === id || one === `${i + 1}`),
  );
  return chosen.every((set) => set !== undefined)
    ? answer([...new Set(chosen.map(({ id }) => id))])
    : notUnderstood(`numbers from 1 to ${ruleSets.length} with commas between, or none`);
}
