/**
 * The keys that stand for the unit's buttons and switches in manual mode, in one table. The
 * controller decides what a button does.
 */
import { emitKeypressEvents } from 'node:readline';
import type { PanelWords } from '../../app/prepare/terminal-words.ts';
import type { Button } from '../../core/frame.ts';
import { filled } from '../../core/phrases.ts';
import type { TypedNumber } from './typed-number.ts';

export type KeyAction =
  | { readonly kind: 'button'; readonly button: Button }
  | { readonly kind: 'emergency-stop' | 'shield' | 'interrupt' };

export const KEY_ACTIONS: Readonly<Record<string, KeyAction>> = {
  y: { kind: 'button', button: 'yes' },
  return: { kind: 'button', button: 'yes' },
  n: { kind: 'button', button: 'no' },
  m: { kind: 'button', button: 'more' },
  h: { kind: 'button', button: 'hold' },
  e: { kind: 'emergency-stop' },
  s: { kind: 'shield' },
};

/** Which keys a person has: a real unit has its own emergency stop and shield. */
export type KeySet = keyof PanelWords['keys'];

/** With the buttons named as the display names them. */
export const keysLine = (
  { keys }: PanelWords,
  set: KeySet,
  names: Readonly<Record<Button, string>>,
): string => filled(keys[set], names);

export const INTERRUPT_KEY = 'interrupt';

/** Listens until the returned function is called, which restores the terminal. */
export function listenToKeys(
  input: NodeJS.ReadStream,
  typed: TypedNumber,
  onKey: (action: KeyAction) => void,
): () => void {
  return listenToKeyNames(input, (name, sign) => {
    if (name !== INTERRUPT_KEY && typed.take(name, sign)) return;
    const action = name === INTERRUPT_KEY ? ({ kind: 'interrupt' } as const) : KEY_ACTIONS[name];
    if (action !== undefined) onKey(action);
  });
}

/** The same by key names; Ctrl-C arrives as INTERRUPT_KEY. */
export function listenToKeyNames(
  input: NodeJS.ReadStream,
  onName: (name: string, sign: string | undefined) => void,
): () => void {
  const listener = (sign: string | undefined, key: { name?: string; ctrl?: boolean }): void =>
    onName(key.ctrl === true && key.name === 'c' ? INTERRUPT_KEY : (key.name ?? ''), sign);
  emitKeypressEvents(input);
  if (input.isTTY) input.setRawMode(true);
  input.on('keypress', listener);
  input.resume();
  return () => {
    input.off('keypress', listener);
    if (input.isTTY) input.setRawMode(false);
    input.pause();
  };
}
