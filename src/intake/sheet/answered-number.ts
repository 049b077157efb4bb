/**
 * Digits as a person types them: with a decimal point or a decimal comma, or as a fraction, as rulers
 * in inches are read. A comma before three digits may part thousands as well: both readings are
 * handed back and neither is taken. Units and ranges are left to others.
 */

export type TypedNumber =
  | { readonly kind: 'number'; readonly value: number }
  /** With the comma for decimals, and without it. */
  | {
      readonly kind: 'either';
      readonly typed: string;
      readonly readings: readonly [number, number];
    }
  | { readonly kind: 'none' };

const NONE: TypedNumber = { kind: 'none' };
const number = (value: number): TypedNumber => ({ kind: 'number', value });

export function typedNumber(digits: string): TypedNumber {
  // No thousands begin with 0, and none have more than three digits before the comma.
  if (/^[-+]?[1-9]\d{0,2},\d{3}$/.test(digits)) {
    const readings = [Number(digits.replace(',', '.')), Number(digits.replace(',', ''))] as const;
    return { kind: 'either', typed: digits, readings };
  }
  if (/^[-+]?(\d+([.,]\d+)?|[.,]\d+)$/.test(digits)) {
    return number(Number(digits.replace(',', '.')));
  }
  const fraction = /^(?:(\d+) +)?(\d+)\/([1-9]\d*)$/.exec(digits);
  if (fraction === null) return NONE;
  const [, whole = '0', over, under] = fraction;
  return number(Number(whole) + Number(over) / Number(under));
}
