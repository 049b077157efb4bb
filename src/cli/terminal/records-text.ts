/** Parses an option that is a line of text. */
import { InvalidArgumentError } from 'commander';

export const parseText =
  (maxLength: number) =>
  (words: string): string => {
    const text = words.trim();
    if (text.length >= 1 && text.length <= maxLength) return text;
    throw new InvalidArgumentError(`accepted: a text of 1 to ${maxLength} characters.`);
  };
