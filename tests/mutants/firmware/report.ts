/** What a run of changes comes to, a line for each source, and every survivor with its place. */
import { type Accepted, REMAINING } from './remaining.ts';
import type { Outcome } from './results.ts';

export interface Mutant {
  readonly file: string;
  readonly line: number;
  /** The source line as it stands. */
  readonly code: string;
  readonly change: string;
  readonly outcome: Outcome;
}

/** The row of the table of remaining survivors that speaks of this change. */
export const accepted = (
  { file, code, change }: Pick<Mutant, 'file' | 'code' | 'change'>,
  rows: readonly Accepted[] = REMAINING,
): Accepted | undefined =>
  rows.find((row) => row.file === file && row.code === code && row.changes.includes(change));

function lineOf(name: string, mutants: readonly Mutant[], rows: readonly Accepted[]): string {
  const count = (outcome: Outcome) => mutants.filter((each) => each.outcome === outcome).length;
  const explained = mutants.filter((each) => accepted(each, rows)?.kind === 'equivalent');
  const equivalent = explained.filter(({ outcome }) => outcome === 'survived').length;
  const killed = count('killed');
  const alive = count('survived') - equivalent;
  const rate = killed + alive === 0 ? '' : `${Math.floor((100 * killed) / (killed + alive))} %`;
  return [
    name.padEnd(16),
    ...[killed, alive, equivalent, count('same image'), count('does not build')].map((n) =>
      String(n).padStart(10),
    ),
    rate.padStart(8),
  ].join('');
}

export function summary(mutants: readonly Mutant[], rows: readonly Accepted[] = REMAINING): string {
  const files = [...new Set(mutants.map(({ file }) => file))].toSorted();
  const head = ['killed', 'survived', 'equivalent', 'same image', 'unbuilt'];
  const survivors = mutants.filter(({ outcome }) => outcome === 'survived');
  const name = (each: Mutant) => {
    const row = accepted(each, rows);
    const why = row === undefined ? '' : `  [${row.kind}: ${row.reason}]`;
    return `${each.file}:${each.line}  ${each.change}   in   ${each.code}${why}`;
  };
  return [
    '',
    `${''.padEnd(16)}${head.map((word) => word.padStart(10)).join('')}  killed`,
    ...files.map((file) =>
      lineOf(
        file,
        mutants.filter((each) => each.file === file),
        rows,
      ),
    ),
    lineOf('all', mutants, rows),
    '',
    ...survivors.map(name),
  ].join('\n');
}
