/**
 * Repeatable chance: one generator for each purpose, all from the scenario's seed, so that drawing
 * more for one purpose does not change another.
 */
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import type { JumpableRandomGenerator } from 'pure-rand/types/JumpableRandomGenerator';

export interface Chance {
  /** In [0, 1). */
  readonly uniform: () => number;
  /** Mean 0, standard deviation 1. */
  readonly gaussian: () => number;
}

/** Chance that can be had a second time from where it is. */
export interface OwnChance extends Chance {
  readonly copy: () => OwnChance;
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

export function createChance(seed: number, purpose: Purpose): OwnChance {
  // A large odd factor keeps neighbouring seeds and purposes apart.
  return drawnFrom(xoroshiro128plus((seed * 0x9e3779b1 + PURPOSES.indexOf(purpose)) | 0));
}

function drawnFrom(generator: JumpableRandomGenerator): OwnChance {
  const uniform = (): number => uniformFloat64(generator);
  return {
    uniform,
    copy: () => drawnFrom(generator.clone()),
    // Box and Muller, Ann. Math. Statist. 29 (1958) 610-611 (from memory).
    gaussian: () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform()),
  };
}
