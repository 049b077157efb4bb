/**
 * Numbers as the report prints them: with as many digits as the tolerance justifies, and with equal
 * decimals for expected and model values, so that they can be compared by eye.
 */
import type { Outcome } from './outcome.ts';

const FEWEST = 4;
const MOST = 10;
/** Printed where the tolerance is nought, for the value is then exact. */
const EXACT = 10;

export interface Figures {
  readonly expected: string;
  readonly actual: string;
  readonly difference: string;
  readonly tolerance: string;
}

export function figuresOf({ row: { expected, tolerance }, actual }: Outcome): Figures {
  const size = Math.abs(expected) || tolerance || 1;
  const digits = tolerance === 0 ? EXACT : Math.ceil(Math.log10(size / tolerance)) + 1;
  const significant = Math.min(MOST, Math.max(FEWEST, digits));
  const print = printer(size, significant, tolerance === 0);
  return {
    expected: print(expected),
    actual: print(actual),
    difference: signed(actual - expected),
    tolerance: short(tolerance),
  };
}

/** Plain decimals, or powers of ten where those would be many noughts. */
function printer(size: number, significant: number, exact: boolean): (value: number) => string {
  const exponent = Math.floor(Math.log10(size));
  const plain = exponent >= -4 && exponent < 8;
  return (value) => {
    if (!Number.isFinite(value)) return 'none';
    if (exact) return minus(String(Number(value.toPrecision(significant))));
    if (!plain) return minus(value.toExponential(significant - 1));
    return minus(value.toFixed(Math.max(0, significant - 1 - exponent)));
  };
}

/** Two digits tell how large a difference is. */
function short(value: number): string {
  const size = Math.abs(value);
  const plain = size === 0 || (size >= 1e-4 && size < 1e6);
  return minus(plain ? String(Number(value.toPrecision(2))) : value.toExponential(1));
}

function signed(value: number): string {
  if (!Number.isFinite(value)) return 'none';
  return value > 0 ? `+${short(value)}` : short(value);
}

/** A true minus sign. */
const minus = (text: string): string => text.replaceAll('-', '−');
