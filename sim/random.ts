/**
 * Repeatable chance: one generator for each purpose, all from the scenario's seed, so that drawing
 * more for one purpose does not change another.
 */
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

export interface Chance {
  /** In [0, 1). */
  readonly uniform: () => number;
  /** Mean 0, standard deviation 1. */
  readonly gaussian: () => number;
}

const PURPOSES = [
  'noise',
  'tolerance',
  'technician',
  'break',
  'reference',
  'fault',
  'cut-out',
] as const;
export type Purpose = (typeof PURPOSES)[number];

export function createChance(seed: number, purpose: Purpose): Chance {
  // A large odd factor keeps neighbouring seeds and purposes apart.
  const generator = xoroshiro128plus((seed * 0x9e3779b1 + PURPOSES.indexOf(purpose)) | 0);
  const uniform = (): number => uniformFloat64(generator);
  return {
    uniform,
    // Box and Muller, Ann. Math. Statist. 29 (1958) 610-611 (from memory).
    gaussian: () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform()),
  };
}
