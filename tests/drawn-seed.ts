/**
 * The seed of what a run of the tests draws for itself. MENISCUS_SEED repeats a run. CI hands in one
 * that is made of the tree under test as MENISCUS_DRAWN_SEED: other trees draw other cases, and a tree
 * that failed fails again.
 */
import { randomInt } from 'node:crypto';

export function drawnSeed(): number {
  const { MENISCUS_SEED: repeated, MENISCUS_DRAWN_SEED: ofTree } = process.env;
  return Number(repeated ?? ofTree ?? randomInt(2 ** 31));
}
