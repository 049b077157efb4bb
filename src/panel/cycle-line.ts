/**
 * What the third line says beside the prompt's own words: which position or field of a crack is in
 * hand; in the vacuum and pressure cycles, which cycle of how many this is, and how long the vacuum
 * may still stand while bubbles come. They take turns. It decides nothing.
 */
import { type PhaseId, partOf } from '../core/phases.ts';
import { filled } from '../core/phrases.ts';
import type { Catalogue } from './catalogue.ts';

export interface CycleCount {
  /** Cycles begun; 0 before the first. */
  readonly cycle: number;
  /** Of the profile: cycles that are run unless the break is clear, and those offered after them. */
  readonly planned: number;
  readonly extra: number;
  /** Of the longest vacuum in one cycle, 0 once it is over, s. */
  readonly vacuumLeftS: number;
}

/** Each line stays for as long as two short lines take to read. */
const TURN_S = 3;

/** Where the limit of the bubbling is part of what is asked. */
const ASKS_ABOUT_BUBBLES: ReadonlySet<PhaseId> = new Set(['ask-bubbles', 'bubbles-stay']);

/**
 * Null outside the cycles, where there is no place to be said. `own`: the prompt's line, empty where
 * it has none.
 */
export function cycleLine(
  phase: PhaseId,
  own: string,
  count: CycleCount,
  place: string | null,
  phaseElapsedS: number,
  catalogue: Catalogue,
): string | null {
  const inCycles = partOf(phase) === 'cycles' && count.cycle > 0;
  if (!inCycles && place === null) return null;
  const said = [
    own,
    place ?? '',
    ...(ASKS_ABOUT_BUBBLES.has(phase) ? [vacuumWords(count, catalogue)] : []),
    inCycles ? cycleWords(count, catalogue) : '',
  ].filter((words) => words !== '');
  return said[Math.floor(phaseElapsedS / TURN_S) % said.length] ?? null;
}

/** A further cycle is no longer one of the planned ones: only the limit counts. */
export function cycleWords(
  { cycle, planned, extra }: CycleCount,
  { live }: Pick<Catalogue, 'live'>,
): string {
  const figures = { cycle: String(cycle), planned: String(planned), most: String(planned + extra) };
  return filled(cycle <= planned ? live.cyclePlanned : live.cycleExtra, figures);
}

const vacuumWords = ({ vacuumLeftS }: CycleCount, { live }: Catalogue): string =>
  vacuumLeftS > 0
    ? filled(live.vacuumLeft, { seconds: String(Math.ceil(vacuumLeftS)) })
    : live.vacuumLongest;
