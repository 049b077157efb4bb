/**
 * Keys during a guided procedure: those that stand for the unit's buttons, and digits for a number
 * that is asked for. What is typed is collected here until Enter; what it means is left to the steps.
 */
import { emitKeypressEvents } from 'node:readline';
import { KEY_ACTIONS, type KeyAction } from './keys.ts';

export interface TypedNumber {
  /** What stands in the line so far, or why the last number was not taken. */
  readonly text: () => string;
  readonly close: () => void;
}

const LONGEST = 8;

export function listenToGuidedKeys(
  input: NodeJS.ReadStream,
  on: {
    readonly asksNumber: () => boolean;
    readonly key: (action: KeyAction) => void;
    /** Null where it is taken, else why not. */
    readonly number: (value: number) => string | null;
  },
): TypedNumber {
  let typed = '';
  let refusal: string | null = null;
  const meant = (sign: string | undefined, name: string): void => {
    refusal = null;
    const after = on.asksNumber() ? typedAfter(typed, sign, name) : null;
    if (after !== null) {
      typed = after;
      return;
    }
    const value = Number(typed);
    const isNumber = on.asksNumber() && typed !== '' && Number.isFinite(value);
    typed = '';
    const action = KEY_ACTIONS[name];
    if (name === 'return' && isNumber) refusal = on.number(value);
    else if (action !== undefined) on.key(action);
  };
  const listener = (sign: string | undefined, key: { name?: string; ctrl?: boolean }): void => {
    if (key.ctrl === true && key.name === 'c') on.key({ kind: 'interrupt' });
    else meant(sign, key.name ?? '');
  };
  emitKeypressEvents(input);
  if (input.isTTY) input.setRawMode(true);
  input.on('keypress', listener);
  input.resume();
  return {
    text: () => refusal ?? `${typed}_  then Enter`,
    close: () => {
      input.off('keypress', listener);
      if (input.isTTY) input.setRawMode(false);
      input.pause();
    },
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
