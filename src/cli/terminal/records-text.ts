/** Options that are a line of text: their length, and words that would stay in a record for good. */
import { InvalidArgumentError } from 'commander';
import { partsOfNamesIn } from '../../app/prepare/personal.ts';
import type { SettingsProblem } from '../../core/settings.ts';

export const parseText =
  (maxLength: number) =>
  (words: string): string => {
    const text = words.trim();
    if (text.length >= 1 && text.length <= maxLength) return text;
    throw new InvalidArgumentError(`accepted: a text of 1 to ${maxLength} characters.`);
  };

/** Words that are added to a record cannot be removed from it; null where they name nobody. */
export function namesSomebody(
  option: string,
  text: string,
  record: string,
  personal: Readonly<Record<string, string>>,
): SettingsProblem | null {
  const named = partsOfNamesIn(text, personal);
  if (named.length === 0) return null;
  const accepted = `a text without personal data, which could not be removed (${named.join(', ')})`;
  return { file: record, path: option, value: JSON.stringify(text), accepted };
}
