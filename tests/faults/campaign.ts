/** All results of a campaign as data, and whether it failed. */
import type { HealthyResult } from './healthy.ts';
import type { CaseResult } from './judge.ts';
import { isBroken, type NamedRow, type RowSummary, summaryOf } from './summary.ts';
import type { Answer } from './workers.ts';

export interface Campaign {
  /** One in so many cases of the rows was run. */
  readonly every: number;
  readonly rows: readonly RowSummary[];
  readonly cases: number;
  readonly pairs: {
    readonly cases: number;
    readonly found: number;
    readonly broken: readonly CaseResult[];
  };
  readonly healthy: {
    readonly jobs: number;
    readonly wrong: readonly HealthyResult[];
    /** Jobs in which a stated figure lies outside its own uncertainty: at most one in twenty may. */
    readonly misstated: number;
  };
  readonly tookS: number;
  readonly failed: boolean;
}

/** A dose is stated so that it is at least what is shown with 95 %. */
const MOST_OUTSIDE = 0.05;

const byId = (a: CaseResult, b: CaseResult): number => (a.id < b.id ? -1 : 1);

export function campaignOf(
  { rows, every }: { readonly rows: readonly NamedRow[]; readonly every: number },
  answers: readonly Answer[],
  tookS: number,
): Campaign {
  const results = answers.flatMap((answer) => (answer.kind === 'case' ? [answer.result] : []));
  const singles = results.filter(({ rows: own }) => own.length === 1).sort(byId);
  const pairs = results.filter(({ rows: own }) => own.length > 1).sort(byId);
  const jobs = answers.flatMap((answer) => (answer.kind === 'healthy' ? [answer.result] : []));
  const summaries = rows.map((row) => summaryOf(row, singles));
  const broken = pairs.filter((pair) => isBroken(pair));
  const misstated = jobs.filter(({ falseClaims }) => falseClaims.length > 0).length;
  const wrong = jobs.filter(({ alarms, end }) => alarms.length > 0 || end !== 'completed');
  return {
    every,
    rows: summaries,
    cases: singles.length,
    pairs: {
      cases: pairs.length,
      found: pairs.filter(({ foundBy }) => foundBy !== null).length,
      broken,
    },
    healthy: { jobs: jobs.length, wrong, misstated },
    tookS,
    failed:
      broken.length > 0 ||
      wrong.length > 0 ||
      misstated > MOST_OUTSIDE * jobs.length ||
      summaries.some(({ state }) => state === 'broken' || state === 'not found'),
  };
}
