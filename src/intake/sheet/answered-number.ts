/**
 * Reads digits as a person types them: with a decimal point, a decimal comma, or as a fraction, as
 * on an inch ruler. A comma before three digits may also separate thousands; both readings are then
 * returned and neither is taken. Units and ranges are left to the caller.
 */

export type TypedNumber =
  | { readonly kind: 'number'; readonly value: number }
  /** With the comma as decimal comma, and as thousands separator. */
  | {
      readonly kind: 'either';
      readonly typed: string;
      readonly readings: readonly [number, number];
    }
  | { readonly kind: 'none' };

const NONE: TypedNumber = { kind: 'none' };
const number = (value: number): TypedNumber => ({ kind: 'number', value });

export function typedNumber(digits: string): TypedNumber {
  // A number with thousands never begins with 0 and has at most three digits before the comma.
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
