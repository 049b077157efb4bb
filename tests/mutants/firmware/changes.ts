/**
 * The single changes that a C source is put to: one token exchanged, one operand, statement or call
 * dropped, one condition or result turned round. Pure; whether a changed source builds, and whether
 * a test sees it, is found out elsewhere.
 */
import { closingOf, firstOutside, isName, isNumber, type Token, tokensOf } from './tokens.ts';

export interface Change {
  /** Counted from 1. */
  readonly line: number;
  readonly at: number;
  readonly from: string;
  readonly to: string;
}

const EXCHANGED: Readonly<Record<string, string>> = {
  '==': '!=',
  '!=': '==',
  '<': '<=',
  '<=': '<',
  '>': '>=',
  '>=': '>',
  '&&': '||',
  '||': '&&',
  '+': '-',
  '-': '+',
  '++': '--',
  '--': '++',
  '+=': '-=',
  '-=': '+=',
  '&=': '|=',
  '|=': '&=',
  '^=': '=',
  '&': '|',
  '|': '&',
  '<<': '>>',
  '>>': '<<',
  true: 'false',
  false: 'true',
};
const UNARY_TOO: readonly string[] = ['+', '-', '&'];
const DROPPED_ALONE: readonly string[] = ['~', '!'];
const WITH_OPERAND: readonly string[] = ['&&', '||', '&', '|'];
const CONDITIONAL: readonly string[] = ['if', 'while'];
const HEADS: readonly string[] = ['if', 'while', 'for', 'ATOMIC_BLOCK'];
const JUMPS: readonly string[] = ['return', 'continue', 'break'];
const NO_VALUE: readonly string[] = ['return', 'case', 'sizeof', 'else'];

/** One replacement in the text, from the token `first` up to where the token `end` begins. */
type Cut = readonly [first: number, end: number, to: string];

/** After a value, `-` and `&` have two operands. */
function followsValue(tokens: readonly Token[], i: number): boolean {
  const before = tokens[i - 1]?.text;
  if (before === ')' || before === ']' || isNumber(before)) return true;
  return isName(before) && !NO_VALUE.includes(before ?? '');
}

function numberChanged(text: string): string {
  const [, digits = '', suffix = ''] = /^(\w+?)([uUlL]*)$/.exec(text) ?? [];
  const value = Number(digits);
  const other = value === 1 ? 0 : value + 1;
  return (digits.startsWith('0x') ? `0x${other.toString(16)}` : String(other)) + suffix;
}

function exchanged(tokens: readonly Token[], i: number): Cut[] {
  const { text } = tokens[i]!;
  if (isNumber(text)) return [[i, i + 1, numberChanged(text)]];
  if (DROPPED_ALONE.includes(text)) return [[i, i + 1, '']];
  const other = Object.hasOwn(EXCHANGED, text) ? EXCHANGED[text] : undefined;
  if (other === undefined || (UNARY_TOO.includes(text) && !followsValue(tokens, i))) return [];
  return [[i, i + 1, other]];
}

/** `a && b` becomes `a`. */
function operandDropped(tokens: readonly Token[], i: number): Cut[] {
  const { text } = tokens[i]!;
  if (!WITH_OPERAND.includes(text) || !followsValue(tokens, i)) return [];
  const isLogical = text.length === 2;
  const end = firstOutside(
    tokens,
    i + 1,
    (next) => ['&&', '||', ';', ',', '?', ':'].includes(next) || (!isLogical && next === '|'),
  );
  return [[i, end, '']];
}

function turnedRound(source: string, tokens: readonly Token[], i: number): Cut[] {
  const { text } = tokens[i]!;
  const inside = (first: number, end: number): Cut[] => {
    // A constant is exchanged already, and a `!` before the whole of it dropped.
    if (end === first + 1 && /^(?:\d.*|true|false)$/.test(tokens[first]!.text)) return [];
    const isSplit = (next: string) => ['&&', '||', '?', ';'].includes(next);
    if (tokens[first]!.text === '!' && firstOutside(tokens, first, isSplit) >= end) return [];
    const value = source.slice(tokens[first]!.at, tokens[end]!.at).trimEnd();
    return [[first, end, `!(${value})`]];
  };
  if (CONDITIONAL.includes(text) && tokens[i + 1]?.text === '(')
    return inside(i + 2, closingOf(tokens, i + 1));
  if (text !== 'return' || tokens[i + 1]?.text === ';') return [];
  return inside(
    i + 1,
    firstOutside(tokens, i + 1, (next) => next === ';'),
  );
}

/** Indices of `)` that close the head of a statement. */
function headEnds(tokens: readonly Token[]): ReadonlySet<number> {
  return new Set(
    tokens.flatMap(({ text }, i) => (HEADS.includes(text) ? [closingOf(tokens, i + 1)] : [])),
  );
}

function beginsStatement(tokens: readonly Token[], i: number, heads: ReadonlySet<number>): boolean {
  const before = tokens[i - 1]?.text ?? '';
  if (['{', '}', ';', 'else'].includes(before)) return true;
  if (before === ':') return tokens[i - 3]?.text === 'case' || tokens[i - 2]?.text === 'default';
  return heads.has(i - 1);
}

function statementDropped(tokens: readonly Token[], i: number, heads: ReadonlySet<number>): Cut[] {
  const { text } = tokens[i]!;
  const next = tokens[i + 1]?.text ?? '';
  if (!beginsStatement(tokens, i, heads) || !(isName(text) || text === '*')) return [];
  if (JUMPS.includes(text)) return next === ';' ? [[i, i + 1, '']] : [];
  if (isName(next) || (next === '*' && isName(text)) || HEADS.includes(text)) return [];
  const end = firstOutside(tokens, i, (other) => other === ';' || other === '{');
  const parts = tokens.slice(i, end).map((token) => token.text);
  if (tokens[end]?.text !== ';' || !parts.some((part) => /^(?:\(|[-+|&^]?=|\+\+|--)$/.test(part)))
    return [];
  return [[i, end, '']];
}

/** How deep in braces each token stands: what is dropped is inside of functions or macros. */
function depths(tokens: readonly Token[]): number[] {
  let depth = 0;
  return tokens.map(({ text }) => {
    if (text === '{') depth += 1;
    if (text === '}') depth -= 1;
    return depth;
  });
}

export function changesOf(source: string): Change[] {
  const tokens = tokensOf(source);
  const heads = headEnds(tokens);
  const depth = depths(tokens);
  const cuts = tokens.flatMap((_, i): Cut[] => [
    ...exchanged(tokens, i),
    ...operandDropped(tokens, i),
    ...turnedRound(source, tokens, i),
    ...(depth[i]! > 0 ? statementDropped(tokens, i, heads) : []),
  ]);
  return cuts.map(([first, end, to]) => {
    const { at } = tokens[first]!;
    const last = tokens[end - 1]!;
    const line = source.slice(0, at).split('\n').length;
    return { line, at, from: source.slice(at, last.at + last.text.length), to };
  });
}

export const changed = (source: string, { at, from, to }: Change): string =>
  source.slice(0, at) + to + source.slice(at + from.length);

/** As people read it, on one line. */
export const describeChange = ({ from, to }: Change): string =>
  `${from.replace(/\s+/g, ' ')} => ${to === '' ? '(dropped)' : to.replace(/\s+/g, ' ')}`;
