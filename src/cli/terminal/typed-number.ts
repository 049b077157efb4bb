/**
 * A number that is typed where one is asked for: digits are collected here until Enter; every other
 * key is left to whoever listens. What the number means is left to the procedure.
 */
export interface TypedNumber {
  /** Whether the key belongs to the number. */
  readonly take: (name: string, sign: string | undefined) => boolean;
  /** What stands in the line so far, or why the last number was not taken. */
  readonly text: () => string;
}

const LONGEST = 8;

export function createTypedNumber(on: {
  readonly asked: () => boolean;
  /** Null where it is taken, else why not. */
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
    text: () => refusal ?? `${typed}_  then Enter`,
  };
}

/** The line after a key, or null where the key does not write in it. */
export function typedAfter(typed: string, sign: string | undefined, name: string | undefined) {
  if (name === 'backspace') return typed.slice(0, -1);
  if (name === 'escape') return '';
  const point = sign === ',' ? '.' : (sign ?? '');
  if (!/^[\d.-]$/.test(point) || typed.length >= LONGEST) return null;
  return `${typed}${point}`;
}
