/**
 * C source text as tokens with their places. Comments, preprocessor lines and the heads of macros
 * count as blank; the body of a macro is code. It knows just enough C for `changes.ts`.
 */

export interface Token {
  readonly text: string;
  readonly at: number;
}

const TOKEN =
  /\/\*[\s\S]*?\*\/|\/\/.*|"(?:\\.|[^"\\])*"|'(?:\\.|[^'\\])*'|[A-Za-z_]\w*|0[xX][0-9a-fA-F]+[uUlL]*|\d+[uUlL]*|<<=|>>=|->|\+\+|--|&&|\|\||<<|>>|[=!<>+\-*/%&|^]=|\S/g;
const DIRECTIVE = /^#(?:define[ \t]+\w+(?:\([^)]*\))?|(?!define)(?:[^\n\\]|\\\n)*)/gm;

const blank = (text: string) => text.replace(/[^\n]/g, ' ');

export function tokensOf(source: string): Token[] {
  const code = source.replace(DIRECTIVE, blank).replace(/\\$/gm, ' ');
  return [...code.matchAll(TOKEN)]
    .map(({ 0: text, index }) => ({ text, at: index }))
    .filter(({ text }) => !text.startsWith('/*') && !text.startsWith('//'));
}

export const isName = (text: string | undefined): boolean => /^[A-Za-z_]/.test(text ?? '');
export const isNumber = (text: string | undefined): boolean => /^\d/.test(text ?? '');

const CLOSING: Readonly<Record<string, string>> = { '(': ')', '[': ']', '{': '}' };
const isOpening = (text: string) => text in CLOSING;
const isClosing = (text: string) => Object.values(CLOSING).includes(text);

/** Index of the token that closes the bracket at `open`; the last token where none does. */
export function closingOf(tokens: readonly Token[], open: number): number {
  let depth = 0;
  for (let i = open; i < tokens.length; i++) {
    const { text } = tokens[i]!;
    if (isOpening(text)) depth += 1;
    if (isClosing(text)) depth -= 1;
    if (depth === 0) return i;
  }
  return tokens.length - 1;
}

/** Index of the first token from `from` on, outside brackets that open there, that `ends`. */
export function firstOutside(
  tokens: readonly Token[],
  from: number,
  ends: (text: string) => boolean,
): number {
  let i = from;
  while (i < tokens.length) {
    const { text } = tokens[i]!;
    if (isClosing(text) || ends(text)) return i;
    i = isOpening(text) ? closingOf(tokens, i) + 1 : i + 1;
  }
  return tokens.length;
}

/** A line of the source, from 1, without its indentation and a comment at its end. */
export const codeOfLine = (source: string, line: number): string =>
  (source.split('\n')[line - 1] ?? '').replace(/\/\*.*$/, '').trim();
