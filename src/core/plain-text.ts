/**
 * Which characters a text may hold. Control characters steer a terminal or begin a line of their own,
 * and overrides of the direction of writing (Unicode Standard Annex 9, the explicit formatting
 * characters) show a text in another order than it is kept in. A text with one is refused at the
 * door; a text that is already on record is printed with its characters written out.
 */

/** C0, DEL, C1, line and paragraph separators, directional embeddings, overrides and isolates. */
const STEERING = '\\u0000-\\u001f\\u007f-\\u009f\\u2028\\u2029\\u202a-\\u202e\\u2066-\\u2069';
const ANY_STEERING = new RegExp(`[${STEERING}]`);
const EVERY_STEERING = new RegExp(`[${STEERING}]`, 'g');
const EVERY_STEERING_BUT_LINE_FEED = new RegExp(`(?!\\n)[${STEERING}]`, 'g');

export const PLAIN_TEXT = 'a text on one line without control characters';

export const isPlainText = (text: string): boolean => !ANY_STEERING.test(text);

const writtenOut = (character: string): string =>
  `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`;

/** A value inside a line: whatever would steer the terminal is written out, line feeds too. */
export const escapedValue = (text: string): string => text.replace(EVERY_STEERING, writtenOut);

/** Lines to print: as a value, but line feeds end lines. */
export const escapedLines = (text: string): string =>
  text.replace(EVERY_STEERING_BUT_LINE_FEED, writtenOut);

export interface UnplainText {
  readonly path: readonly (string | number)[];
  readonly value: string;
}

/** Every text inside data as given, names of fields too, that holds what it may not. */
export function unplainTexts(
  data: unknown,
  path: readonly (string | number)[] = [],
): readonly UnplainText[] {
  if (typeof data === 'string') return isPlainText(data) ? [] : [{ path, value: data }];
  if (Array.isArray(data)) return data.flatMap((one, at) => unplainTexts(one, [...path, at]));
  if (typeof data !== 'object' || data === null) return [];
  return Object.entries(data).flatMap(([name, value]) => [
    ...(isPlainText(name) ? [] : [{ path, value: name }]),
    ...unplainTexts(value, [...path, name]),
  ]);
}

/** Data of a record that is older than this rule, with a sign that steers nothing for each character that would. */
export function madePlain(data: unknown): unknown {
  if (typeof data === 'string') return data.replace(EVERY_STEERING, '\ufffd');
  if (Array.isArray(data)) return data.map(madePlain);
  if (typeof data !== 'object' || data === null) return data;
  return Object.fromEntries(Object.entries(data).map(([name, value]) => [name, madePlain(value)]));
}
