/**
 * Finds a number that is none (NaN) in what the controller remembers. Every comparison with such a
 * number is false, so that a dwell would end at once, a limit would never trip, and a dose would
 * stop being counted, all without a word. Infinity is an ordinary value here: it marks what has no
 * bound. Position and times of the procedure are checked at every tick, so that no phase is left by
 * mistake; the rest in turns, a room a tick. The alarm table decides what follows.
 */
import type { ControllerState, ProcedureTypes } from './controller-state.ts';

type State = ControllerState<ProcedureTypes>;

/** Signals heal by themselves: decoding makes a missing value of what is no number. */
const ROOMS = [
  ({ procedure }: State) => ({ procedure }),
  ({ scene }: State) => ({ scene }),
  ({ watch, regulator }: State) => ({ watch, regulator }),
] as const;

/** Where it stands, such as 'procedure.elapsedS'; null where none is found in this tick. */
export function lostNumberIn(state: State, sequence: number): string | null {
  const { procedure, setPointPa, batchForS, screen } = state;
  // Every tick's own length is in this sum.
  if (isNone(batchForS)) return 'batchForS';
  if (isNone(setPointPa)) return 'setPointPa';
  if (isNone(screen.shownS)) return 'screen.shownS';
  if (isNone(screen.heededS)) return 'screen.heededS';
  for (const key in procedure) {
    if (isNone(procedure[key as keyof typeof procedure])) return `procedure.${key}`;
  }
  const room = ROOMS[sequence % ROOMS.length]?.(state);
  return room !== undefined && hasNone(room) ? pathOf(room, '') : null;
}

const isNone = (value: unknown): boolean => typeof value === 'number' && Number.isNaN(value);

/** Without a path, and a call only for what has parts: this is asked at every tick. */
function hasNone(parts: object): boolean {
  if (Array.isArray(parts)) return anyNone(parts);
  for (const key in parts) {
    const part: unknown = parts[key as keyof typeof parts];
    if (typeof part === 'number') {
      if (Number.isNaN(part)) return true;
    } else if (typeof part === 'object' && part !== null && hasNone(part)) return true;
  }
  return false;
}

/** `for in` over an array builds a string for every index, which is slow at every tick. */
function anyNone(parts: readonly unknown[]): boolean {
  for (const part of parts) {
    if (typeof part === 'object' ? part !== null && hasNone(part) : isNone(part)) return true;
  }
  return false;
}

function pathOf(value: unknown, path: string): string | null {
  if (typeof value !== 'object' || value === null) return isNone(value) ? path : null;
  for (const [key, part] of Object.entries(value)) {
    const found = pathOf(part, path === '' ? key : `${path}.${key}`);
    if (found !== null) return found;
  }
  return null;
}
