/** Collects what a verification finds: findings, a hundred at most, and remarks. */
import type { Finding } from '../chain/finding.ts';

const MOST_KEPT = 100;

export interface Found {
  readonly findings: readonly Finding[];
  readonly remarks: readonly string[];
}

export interface Tally {
  readonly add: (finding: Finding | null) => void;
  readonly remark: (words: string | null) => void;
  readonly addAll: (found: Found) => void;
  readonly summary: () => Found & {
    readonly ok: boolean;
    readonly first: Finding | null;
    readonly findingCount: number;
  };
}

export function createTally(): Tally {
  const findings: Finding[] = [];
  const remarks: string[] = [];
  let findingCount = 0;
  const add = (finding: Finding | null): void => {
    if (finding === null) return;
    findingCount += 1;
    if (findings.length < MOST_KEPT) findings.push(finding);
  };
  const remark = (words: string | null): void => {
    if (words !== null) remarks.push(words);
  };
  return {
    add,
    remark,
    addAll: (found) => {
      for (const finding of found.findings) add(finding);
      for (const words of found.remarks) remark(words);
    },
    summary: () => ({
      ok: findingCount === 0,
      first: findings[0] ?? null,
      findings,
      findingCount,
      remarks,
    }),
  };
}
