/**
 * A number typed at the terminal: collects digits until Enter and leaves every other key to the
 * caller. The procedure interprets the number.
 */
export interface TypedNumber {
  /** Returns whether the key belongs to the number. */
  readonly take: (name: string, sign: string | undefined) => boolean;
  /** The line so far, or why the last number was not accepted. */
  readonly text: () => string;
}

const LONGEST = 8;

export function createTypedNumber(on: {
  readonly asked: () => boolean;
  /** Null where the number is accepted, otherwise why not. */
  readonly take: (value: number) => string | null;
}): TypedNumber {
  let typed = '';
  let refusal: string | null = null;
  return {
    take: (name, sign) => {
      refusal = null;
      const asked = on.asked();
      const after = asked ? typedAfter(typed, sign, name) : null;
      const value = typed === '' ? Number.NaN : Number(typed);
      typed = after ?? '';
      if (after !== null) return true;
      if (name !== 'return' || !asked || !Number.isFinite(value)) return false;
      refusal = on.take(value);
      return true;
    },
    text: () => refusal ?? `${typed}_  then press Enter`,
  };
}

/** The line after a key, or null where the key does not belong to the number. */
export function typedAfter(typed: string, sign: string | undefined, name: string | undefined) {
  if (name === 'backspace') return typed.slice(0, -1);
  if (name === 'escape') return '';
  const point = sign === ',' ? '.' : (sign ?? '');
  if (!/^[\d.-]$/.test(point) || typed.length >= LONGEST) return null;
  return `${typed}${point}`;
}
