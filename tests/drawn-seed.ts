/**
 * The second seed of walks and fuzz, which differs from run to run. MENISCUS_SEED repeats a run. CI
 * takes MENISCUS_DRAWN_SEED from the tree under test: a new tree tries new cases, and a tree that
 * failed fails again.
 */
import { randomInt } from 'node:crypto';

export function drawnSeed(): number {
  const { MENISCUS_SEED: repeated, MENISCUS_DRAWN_SEED: ofTree } = process.env;
  return Number(repeated ?? ofTree ?? randomInt(2 ** 31));
}
