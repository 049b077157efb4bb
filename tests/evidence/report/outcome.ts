/**
 * The outcome of each outside check, as plain data for the terminal and the page: the model's
 * value, its difference, and whether the row holds. A row marked as a miss must miss: once the
 * model agrees, the mark is out of date and the row fails.
 */
import {
  type CheckGroup,
  type CheckRow,
  distinctFacts,
  holds,
  KIND_OF,
  KINDS,
  type Kind,
  type Plot,
} from '../check.ts';

export type Result = 'ok' | 'misses' | 'FAILS';

export interface Outcome {
  readonly row: CheckRow;
  readonly actual: number;
  readonly result: Result;
  /** What a reader must know about it; empty when it simply holds. */
  readonly remark: string;
}

export interface GroupOutcome {
  readonly title: string;
  readonly outcomes: readonly Outcome[];
  readonly plots: readonly Plot[];
}

export const outcomesOf = ({ title, rows, plots }: CheckGroup): GroupOutcome => ({
  title,
  outcomes: rows.map(outcomeOf),
  plots: plots?.() ?? [],
});

/** A row that throws fails like any other, and the rest of the report is still made. */
export function outcomeOf(row: CheckRow): Outcome {
  try {
    return judged(row, row.actual());
  } catch (error) {
    return { row, actual: Number.NaN, result: 'FAILS', remark: `No value: ${String(error)}` };
  }
}

function judged(row: CheckRow, actual: number): Outcome {
  const { misses, why } = row;
  const held = holds(row, actual);
  if (misses === undefined) {
    return { row, actual, result: held ? 'ok' : 'FAILS', remark: why ?? '' };
  }
  return held
    ? { row, actual, result: 'FAILS', remark: `No longer misses, though marked: ${misses}` }
    : { row, actual, result: 'misses', remark: misses };
}

/** Rows of one kind, in their groups; curves stand with the first kind that a group has. */
export function ofKind(groups: readonly GroupOutcome[], kind: Kind): readonly GroupOutcome[] {
  return groups.flatMap(({ title, outcomes, plots }) => {
    const own = outcomes.filter(({ row }) => KIND_OF[row.obtained] === kind);
    if (own.length === 0) return [];
    const first = KINDS.find((one) => outcomes.some(({ row }) => KIND_OF[row.obtained] === one));
    return [{ title, outcomes: own, plots: first === kind ? plots : [] }];
  });
}

export interface KindSummary {
  readonly rows: number;
  /** Different things that they say; fewer than rows where one fact stands in two groups. */
  readonly facts: number;
  readonly results: Readonly<Record<Result, number>>;
}

export interface Summary {
  readonly groups: number;
  readonly kinds: Readonly<Record<Kind, KindSummary>>;
  /** Rows by how the expected value was obtained, the most frequent first. */
  readonly obtained: readonly (readonly [CheckRow['obtained'], number])[];
  readonly results: Readonly<Record<Result, number>>;
}

export function summaryOf(groups: readonly GroupOutcome[]): Summary {
  const all = groups.flatMap(({ outcomes }) => outcomes);
  const obtained = new Map<CheckRow['obtained'], number>();
  for (const { row } of all) obtained.set(row.obtained, (obtained.get(row.obtained) ?? 0) + 1);
  const of = (kind: Kind) => all.filter(({ row }) => KIND_OF[row.obtained] === kind);
  return {
    groups: groups.length,
    kinds: {
      published: kindSummary(of('published')),
      numerics: kindSummary(of('numerics')),
      tuned: kindSummary(of('tuned')),
      remembered: kindSummary(of('remembered')),
    },
    obtained: [...obtained].sort(([, a], [, b]) => b - a),
    results: resultsOf(all),
  };
}

const kindSummary = (outcomes: readonly Outcome[]): KindSummary => ({
  rows: outcomes.length,
  facts: distinctFacts(outcomes.map(({ row }) => row)),
  results: resultsOf(outcomes),
});

function resultsOf(outcomes: readonly Outcome[]): Readonly<Record<Result, number>> {
  const count = (wanted: Result) => outcomes.filter(({ result }) => result === wanted).length;
  return { ok: count('ok'), misses: count('misses'), FAILS: count('FAILS') };
}
