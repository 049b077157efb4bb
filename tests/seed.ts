/**
 * Runs before every file of tests: all properties draw from one seed, so that a run can be repeated.
 * MENISCUS_SEED gives another, or `random` one that `vitest.config.ts` draws and prints.
 */
import fc from 'fast-check';

/** Arbitrary, and the same for everybody. */
const USUAL_SEED = 20_251_126;

const { MENISCUS_SEED: given = '' } = process.env;
const seed = given === '' ? USUAL_SEED : Number(given);
if (!Number.isInteger(seed)) throw new Error(`MENISCUS_SEED is ${given}, not a whole number`);
fc.configureGlobal({ seed });
