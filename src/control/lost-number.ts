/**
 * Finds a number that is none (NaN) in what the controller remembers. Every comparison with such a
 * number is false, so that a dwell would end at once, a limit would never trip, and a dose would
 * stop being counted, all without a word. Infinity is an ordinary value here: it marks what has no
 * bound. The alarm table decides what follows.
 */
import type { ControllerState, ProcedureTypes } from './controller-state.ts';

type Remembered = Pick<
  ControllerState<ProcedureTypes>,
  'procedure' | 'scene' | 'watch' | 'regulator' | 'setPointPa' | 'batchForS' | 'screen'
>;

/** Where it stands, such as 'procedure.elapsedS'; null while every number is one. */
export function lostNumberIn(state: Remembered): string | null {
  const { procedure, scene, watch, regulator, setPointPa, batchForS, screen } = state;
  // The parts that decide by comparing numbers. Signals are checked where they are decoded.
  const lost =
    hasNaN(procedure) ||
    hasNaN(scene) ||
    hasNaN(watch) ||
    hasNaN(regulator) ||
    hasNaN(setPointPa) ||
    hasNaN(batchForS) ||
    hasNaN(screen.shownS);
  return lost
    ? pathOf({ procedure, scene, watch, regulator, setPointPa, batchForS, screen }, '')
    : null;
}

/** Without a path: this is asked at every tick. */
function hasNaN(value: unknown): boolean {
  if (typeof value === 'number') return Number.isNaN(value);
  if (typeof value !== 'object' || value === null) return false;
  for (const key in value) {
    if (hasNaN((value as Record<string, unknown>)[key])) return true;
  }
  return false;
}

function pathOf(value: unknown, path: string): string | null {
  if (typeof value === 'number') return Number.isNaN(value) ? path : null;
  if (typeof value !== 'object' || value === null) return null;
  for (const [key, part] of Object.entries(value)) {
    const found = pathOf(part, path === '' ? key : `${path}.${key}`);
    if (found !== null) return found;
  }
  return null;
}
