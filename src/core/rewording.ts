/**
 * Reads English sentences of a record back, which a journal holds without their keys, and words
 * them in another language. A sentence that no template fits stays English.
 */
import { filled, placeholdersOf } from './phrases.ts';

/** An English template, and the same in the other language. */
export type Pair = readonly [english: string, other: string];

interface Pattern {
  readonly fits: RegExp;
  readonly names: readonly string[];
  readonly other: string;
  readonly letters: number;
}

const NUMBER = /^[-+]?\d+\.\d+$/;
/** 'u = 0.45 kPa': no template of a phrase has the unit alone. */
const WITH_UNIT = /^[-+]?\d+\.\d+ \S{1,8}$/;
const PLACEHOLDER = /\{(\w+)\}/g;

export function rewording(
  pairs: readonly Pair[],
  figure: (english: string) => string,
): (english: string) => string {
  const whole = new Map(pairs.filter(([english]) => placeholdersOf(english).length === 0));
  const patterns = pairs
    .map(patternOf)
    .filter(({ names, letters }) => names.length > 0 && letters > 0)
    .toSorted((one, other) => other.letters - one.letters);
  const word = (english: string): string => {
    const known = whole.get(english);
    if (known !== undefined) return known;
    if (NUMBER.test(english)) return figure(english);
    for (const { fits, names, other } of patterns) {
      const found = fits.exec(english);
      if (found === null) continue;
      const values = names.map((name, at) => [name, word(found[at + 1] ?? '')] as const);
      return filled(other, Object.fromEntries(values));
    }
    return WITH_UNIT.test(english) ? figure(english) : (listOf(english) ?? english);
  };
  /** A list of sentences that are all known: the trips of a board. */
  const listOf = (english: string): string | null => {
    const parts = english.split(', ');
    const known = parts.map((part) => whole.get(part));
    return parts.length > 1 && known.every((one) => one !== undefined) ? known.join(', ') : null;
  };
  return word;
}

function patternOf([english, other]: Pair): Pattern {
  const names = [...english.matchAll(PLACEHOLDER)].map(([, name]) => name ?? '');
  const literals = english.split(/\{\w+\}/);
  const source = literals.map((part) => part.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&'));
  return {
    fits: new RegExp(`^${source.join('(.+?)')}$`),
    names,
    other,
    letters: literals.join('').length,
  };
}
