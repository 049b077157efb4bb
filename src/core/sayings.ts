/**
 * A sentence as data: the path of its template in a language's files, and what fills it. Figures
 * carry their unit and are written as in English; a tongue gives them its decimal sign. Texts that
 * a person gave stand as they are. The record keeps the English sentence beside it.
 */
import { filled } from './phrases.ts';

/** A number with its unit, as the English record writes it. */
export interface Figure {
  readonly figure: string;
}

/** An English sentence that a journal holds without its key. */
export interface Recorded {
  readonly recorded: string;
}

export interface Saying {
  readonly say: string;
  readonly with?: Readonly<Record<string, Filling>> | undefined;
}

/** A list is joined by commas. */
export type Filling = string | Figure | Recorded | Saying | readonly Filling[];

/** How one language says it. */
export interface Tongue {
  /** BCP 47. */
  readonly language: string;
  /** Templates by their path, `lines.no-cycle`. */
  readonly sentences: Readonly<Record<string, string>>;
  readonly figure: (english: string) => string;
  readonly recorded: (english: string) => string;
}

export const figure = (english: string): Figure => ({ figure: english });
export const recorded = (english: string): Recorded => ({ recorded: english });

/** A path without a template is shown as it is: a sentence of a newer program. */
export function said(saying: Saying, tongue: Tongue): string {
  const values = Object.entries(saying.with ?? {}).map(
    ([name, filling]) => [name, fillingSaid(filling, tongue)] as const,
  );
  return filled(tongue.sentences[saying.say] ?? saying.say, Object.fromEntries(values));
}

export function fillingSaid(filling: Filling, tongue: Tongue): string {
  if (typeof filling === 'string') return filling;
  if ('figure' in filling) return tongue.figure(filling.figure);
  if ('recorded' in filling) return tongue.recorded(filling.recorded);
  if ('say' in filling) return said(filling, tongue);
  return filling.map((one) => fillingSaid(one, tongue)).join(', ');
}

/** Every text of a language's file by its path. */
export function sentencesOf(words: unknown, path = ''): Readonly<Record<string, string>> {
  if (typeof words === 'string') return { [path]: words };
  if (typeof words !== 'object' || words === null) return {};
  const inside = Object.entries(words).map(([key, inner]) =>
    sentencesOf(inner, path === '' ? key : `${path}.${key}`),
  );
  return Object.assign({}, ...inside);
}

/** The paths of a file's texts, for keys that the compiler checks. */
export type PathOf<T, P extends string = ''> = T extends string
  ? P
  : { [K in keyof T & string]: PathOf<T[K], P extends '' ? K : `${P}.${K}`> }[keyof T & string];
