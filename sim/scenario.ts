/**
 * What a simulated run starts from, as plain data: place, glass, break, resin, faults, and who is at
 * the bench. The same scenario gives the same frames for the same outputs, bit for bit.
 */
import type { Fault } from './faults.ts';
import type { Gap } from './plant/break-filling.ts';

export interface Scenario {
  readonly seed: number;
  readonly tickS: number;
  readonly atmospherePa: number;
  readonly airK: number;
  readonly glassK: number;
  readonly break: Gap;
  readonly resinViscosityPaSAt20C: number;
  readonly faults: readonly Fault[];
  /** `scripted` presses buttons by itself; for a `person` only the hands are simulated. */
  readonly technician: 'scripted' | 'person';
}

/** Apertures and escape times of the kinds of break; demo values, narrower is slower. */
const KINDS: Readonly<Record<string, Omit<Gap, 'lengthM'>>> = {
  bullseye: { apertureM: 8e-6, escapeS: 20 },
  'half-moon': { apertureM: 6e-6, escapeS: 24 },
  'star-break': { apertureM: 1.5e-6, escapeS: 40 },
  'combination-break': { apertureM: 1.5e-6, escapeS: 45 },
  crack: { apertureM: 2e-6, escapeS: 60 },
};
const OTHER: Omit<Gap, 'lengthM'> = { apertureM: 1.5e-6, escapeS: 40 };
const SHORTEST_M = 0.001;

/** One gap that stands for the whole break: the radius of a disc, the longest leg of a star. */
export function breakGeometryOf(damage: {
  readonly type: string;
  readonly diameterM: number;
  readonly longestLegM: number;
}): Gap {
  const reachM = damage.longestLegM > 0 ? damage.longestLegM : damage.diameterM / 2;
  return { ...(KINDS[damage.type] ?? OTHER), lengthM: Math.max(SHORTEST_M, reachM) };
}
