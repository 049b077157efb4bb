/**
 * What all cases of a row come to: found, not found, or broken. A row is broken where any case of
 * it passes a limit of the plant or shows a claim that is false, and `accepted.ts` does not say why
 * nothing in this unit can know.
 */
import { ACCEPTED, ACCEPTED_PAIRS, type Accepted } from './accepted.ts';
import type { CaseResult } from './judge.ts';
import type { Row } from './row.ts';

export interface FoundBy {
  readonly by: string;
  readonly cases: number;
  readonly longestS: number;
}

/** A row by its name, on whatever board it was tried. */
export type NamedRow = Pick<Row, 'id' | 'title'>;

export interface RowSummary {
  readonly row: NamedRow;
  readonly cases: number;
  readonly found: number;
  readonly by: readonly FoundBy[];
  /** Not found, and nothing that was shown was false. */
  readonly unseen: number;
  readonly broken: readonly CaseResult[];
  readonly state: 'found' | 'not found' | 'accepted' | 'broken';
  readonly accepted: Accepted | null;
}

/** A limit or claim that an accepted row of the case leaves open breaks nothing. */
export function isBroken(
  { rows, breaches, falseClaims }: CaseResult,
  reasons: Readonly<Record<string, Accepted>> = ACCEPTED,
): boolean {
  const own = rows.flatMap((row) => reasons[row] ?? []);
  const open = new Set<string>([
    ...own.flatMap(({ passes = [], onWordOf = [] }) => [...passes, ...onWordOf]),
    ...passesOfPair(rows),
  ]);
  return (
    breaches.some(({ limit }) => !open.has(limit)) ||
    falseClaims.some(({ claim }) => !open.has(claim))
  );
}

const passesOfPair = ([a = '', b = '']: CaseResult['rows']): readonly string[] =>
  ACCEPTED_PAIRS.flatMap(({ one, other, passes }) =>
    (one.includes(a) && other.includes(b)) || (one.includes(b) && other.includes(a)) ? passes : [],
  );

export function summaryOf(
  row: NamedRow,
  results: readonly CaseResult[],
  reasons: Readonly<Record<string, Accepted>> = ACCEPTED,
): RowSummary {
  const own = results.filter(({ rows }) => rows.length === 1 && rows[0] === row.id);
  const found = own.filter(({ foundBy }) => foundBy !== null);
  const accepted = reasons[row.id] ?? null;
  const broken = own.filter((one) => isBroken(one, reasons) || !isAsAccepted(one, accepted));
  return {
    row,
    cases: own.length,
    found: found.length,
    by: foundBysOf(found),
    unseen: own.length - found.length,
    broken,
    state: stateOf(found.length > 0, broken.length > 0, accepted),
    accepted,
  };
}

/**
 * A reason for not finding a fault is none where it is found, or where its claim is shown. Where the
 * reason is for a limit or a word, the fault may be found all the same.
 */
function isAsAccepted({ foundBy, shown }: CaseResult, accepted: Accepted | null): boolean {
  if (accepted === null) return true;
  const { withdraws, passes = [], onWordOf = [] } = accepted;
  if (withdraws !== null && shown.includes(withdraws)) return false;
  return foundBy === null || passes.length + onWordOf.length > 0;
}

function stateOf(found: boolean, broken: boolean, accepted: Accepted | null): RowSummary['state'] {
  if (broken) return 'broken';
  if (accepted !== null) return 'accepted';
  return found ? 'found' : 'not found';
}

function foundBysOf(found: readonly CaseResult[]): readonly FoundBy[] {
  const by = new Map<string, { cases: number; longestS: number }>();
  for (const { foundBy, foundAfterS } of found) {
    const name = foundBy ?? '';
    const so = by.get(name) ?? { cases: 0, longestS: 0 };
    by.set(name, {
      cases: so.cases + 1,
      longestS: Math.max(so.longestS, foundAfterS ?? 0),
    });
  }
  return [...by]
    .map(([name, so]) => ({ by: name, ...so }))
    .sort((a, b) => b.cases - a.cases || (a.by < b.by ? -1 : 1));
}

/** What is wrong with a case, in a line. */
export const troubleOf = ({ breaches, falseClaims, foundBy, shown }: CaseResult): string =>
  [
    ...breaches.map(({ limit, words, atS }) => `${limit} passed ${words}, at ${atS.toFixed(1)} s`),
    ...falseClaims.map(
      ({ claim, portion, why }) =>
        `${claim}${portion === null ? '' : ` (${portion})`} is shown, yet ${why}`,
    ),
  ].join('; ') ||
  (foundBy === null
    ? `a claim that should be withdrawn is shown (${shown.join(', ')})`
    : `accepted as not to be found, yet found by ${foundBy}`);
