/**
 * Which cases there are: every row at every moment of its phases, and pairs of rows drawn from a
 * seed. A case is known by its id alone, so that it can be run again from a terminal.
 */
import { createChance } from '../../sim/random.ts';
import { momentsOf, type Planned, plannedMoments } from './moments.ts';
import type { Row } from './row.ts';
import { ROWS, rowOf } from './rows.ts';
import type { Case } from './try-case.ts';

/** Sound jobs for pairs are run with this many seeds, so that sensors differ too. */
const PAIR_SEEDS = 4;

function once<T>(make: (seed: number) => T): (seed: number) => T {
  const made = new Map<number, T>();
  return (seed) => {
    const known = made.get(seed);
    if (known !== undefined) return known;
    const fresh = make(seed);
    made.set(seed, fresh);
    return fresh;
  };
}
/** A list of cases needs no copies of the bench. */
const plannedWith = once(plannedMoments);
const momentsWith = once(momentsOf);

const fits = ({ phases }: Row, { phase }: Planned): boolean => phases?.includes(phase) ?? true;

/** `every`: one in so many cases of each row. */
export const rowCases = (rows: readonly Row[], seed: number, every = 1): readonly string[] =>
  rows.flatMap((row) =>
    plannedWith(seed)
      .filter((moment) => fits(row, moment))
      .filter((_, n) => n % every === 0)
      .map((moment) => `${seed}/${row.id}@${moment.id}`),
  );

/** A row of two faults is a pair by itself. */
const SINGLE: readonly Row[] = ROWS.filter(({ faults }) => faults.length === 1);
const atPowerUp = ({ faults }: Row): boolean =>
  faults.some(({ begins }) => begins === 'at-power-up');

/**
 * Two rows in one job, each in a phase where it matters. One that is there from power-up comes
 * first: the job is sound until the first of them.
 */
export function pairCases(count: number, seed: number): readonly string[] {
  const chance = createChance(seed, 'fault');
  const pick = <T>(from: readonly T[]): T => from[Math.floor(from.length * chance.uniform())] as T;
  return Array.from({ length: count }, (_, n) => {
    const own = seed + (n % PAIR_SEEDS);
    const drawn = [pick(SINGLE), pick(SINGLE)] as const;
    const [first, second] = atPowerUp(drawn[1]) ? [drawn[1], drawn[0]] : drawn;
    const moments = plannedWith(own);
    const a = pick(moments.filter((moment) => fits(first, moment)));
    const inSameJob = moments.filter(
      (moment) => moment.jobId === a.jobId && moment.atS >= a.atS && fits(second, moment),
    );
    const b = inSameJob.length === 0 ? a : pick(inSameJob);
    return `${own}/${first.id}@${a.id}+${second.id}@${b.id}`;
  });
}

export class NoSuchCase extends Error {}

export function caseOf(id: string): Case {
  const [seedText = '', rest = ''] = id.split('/');
  const seed = Number(seedText);
  if (!Number.isSafeInteger(seed) || seed < 0 || rest === '') {
    throw new NoSuchCase(`${id}: a case is SEED/ROW@MOMENT, as the campaign prints it`);
  }
  const parts = rest.split('+').map((part) => {
    const [rowId = '', momentId = ''] = part.split('@');
    const row = rowOf(rowId);
    if (row === undefined) throw new NoSuchCase(`${id}: there is no row ${rowId}`);
    const moment = momentsWith(seed).find((one) => one.id === momentId);
    if (moment !== undefined) return { row, moment };
    const names = momentsWith(seed).map((one) => one.id);
    throw new NoSuchCase(`${id}: there is no moment ${momentId}; there are ${names.join(', ')}`);
  });
  return { id, parts };
}
