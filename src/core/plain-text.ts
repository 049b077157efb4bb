/**
 * Which characters a text may hold. Control characters can steer a terminal or start a new line,
 * and direction overrides (Unicode Standard Annex 9, the explicit formatting characters) display a
 * text in another order than it is stored. New texts with such characters are refused; recorded
 * texts are printed with the characters escaped.
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

/**
 * Escapes a value inside a line: everything that could steer the terminal, including line feeds.
 */
export const escapedValue = (text: string): string => text.replace(EVERY_STEERING, writtenOut);

/** Escapes lines to print: as a value, but line feeds end lines. */
export const escapedLines = (text: string): string =>
  text.replace(EVERY_STEERING_BUT_LINE_FEED, writtenOut);

export interface UnplainText {
  readonly path: readonly (string | number)[];
  readonly value: string;
}

/** All texts inside data, field names included, that hold forbidden characters. */
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

/**
 * Data of a record older than this rule, with each forbidden character replaced by a harmless one.
 */
export function madePlain(data: unknown): unknown {
  if (typeof data === 'string') return data.replace(EVERY_STEERING, '\ufffd');
  if (Array.isArray(data)) return data.map(madePlain);
  if (typeof data !== 'object' || data === null) return data;
  return Object.fromEntries(Object.entries(data).map(([name, value]) => [name, madePlain(value)]));
}
