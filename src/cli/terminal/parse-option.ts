/**
 * Parses options of the command line; commander reports what is accepted together with the option's
 * name.
 */
import { InvalidArgumentError } from 'commander';

/** A repeatable option. */
export const collect = (value: string, before: readonly string[]): readonly string[] => [
  ...before,
  value,
];

export function parseSpeed(words: string): number | 'max' {
  if (words === 'max') return 'max';
  return number(words, 0.1, 1000, 'max, or times real time from 0.1 to 1000');
}

export const parseSeed = (words: string): number =>
  whole(words, 0, 0x7fffffff, 'a whole number from 0 to 2147483647');

export const parseCount = (words: string): number =>
  whole(words, 1, 10_000, 'a whole number from 1 to 10000');

export const parseAltitude = (words: string): number =>
  number(words, -400, 4000, 'metres above sea level from -400 to 4000');

export const parseHours = (words: string): number => number(words, 0, 1000, 'hours from 0 to 1000');

const LONGEST_AGREEMENT = 1000;

export function parseAgreement(words: string): string {
  const text = words.trim();
  if (text !== '' && text.length <= LONGEST_AGREEMENT) return text;
  throw new InvalidArgumentError(`accepted: a text of 1 to ${LONGEST_AGREEMENT} characters.`);
}

function number(words: string, least: number, most: number, accepted: string): number {
  const value = Number(words);
  if (words.trim() !== '' && value >= least && value <= most) return value;
  throw new InvalidArgumentError(`accepted: ${accepted}.`);
}

function whole(words: string, least: number, most: number, accepted: string): number {
  if (!/^\d+$/.test(words)) throw new InvalidArgumentError(`accepted: ${accepted}.`);
  return number(words, least, most, accepted);
}
