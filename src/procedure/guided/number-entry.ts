/**
 * Dials a number with two buttons: one press is one step of the last decimal, and quick presses in
 * one direction accelerate by a table. It holds the number; the steps decide which button does
 * what, and what the number is for.
 */
import { QUANTITIES, type QuantityName } from './quantities.ts';

export interface Entry {
  readonly quantity: QuantityName;
  /** Whole steps of the quantity's last decimal. */
  readonly steps: number;
  /** Presses in one direction without a pause, and the time of the last one. */
  readonly direction: -1 | 0 | 1;
  readonly presses: number;
  readonly pressedAtS: number;
}

/** A longer pause than this begins a new run of presses. */
const SAME_RUN_S = 0.8;

/** From which press of a run on a press counts for how many steps. */
export const STEP_TABLE: readonly { readonly fromPress: number; readonly steps: number }[] = [
  { fromPress: 21, steps: 500 },
  { fromPress: 13, steps: 100 },
  { fromPress: 6, steps: 10 },
  { fromPress: 1, steps: 1 },
];

export function startEntry(quantity: QuantityName, valueSI: number): Entry {
  const steps = stepsOf(quantity, valueSI);
  return { quantity, steps, direction: 0, presses: 0, pressedAtS: Number.NEGATIVE_INFINITY };
}

export function pressEntry(entry: Entry, direction: -1 | 1, timeS: number): Entry {
  const goesOn = direction === entry.direction && timeS - entry.pressedAtS <= SAME_RUN_S;
  const presses = goesOn ? entry.presses + 1 : 1;
  const by = STEP_TABLE.find(({ fromPress }) => presses >= fromPress)?.steps ?? 1;
  const steps = clamped(entry.quantity, entry.steps + direction * by);
  return { ...entry, steps, direction, presses, pressedAtS: timeS };
}

export const entryValueSI = ({ quantity, steps }: Entry): number => {
  const { toSI, stepsPerUnit } = QUANTITIES[quantity];
  return toSI(steps / stepsPerUnit);
};

/** Whether a reference can show a typed or given number. */
export function isEnterable(quantity: QuantityName, valueSI: number): boolean {
  const { fromSI, lowest, highest } = QUANTITIES[quantity];
  const value = fromSI(valueSI);
  return value >= lowest && value <= highest;
}

function stepsOf(quantity: QuantityName, valueSI: number): number {
  const { fromSI, stepsPerUnit } = QUANTITIES[quantity];
  return clamped(quantity, Math.round(fromSI(valueSI) * stepsPerUnit));
}

function clamped(quantity: QuantityName, steps: number): number {
  const { lowest, highest, stepsPerUnit } = QUANTITIES[quantity];
  return Math.min(highest * stepsPerUnit, Math.max(lowest * stepsPerUnit, steps));
}
