/** What a campaign comes to, in the terminal. */
import type { Campaign } from './campaign.ts';
import type { CaseResult } from './judge.ts';
import { type RowSummary, troubleOf } from './summary.ts';

const MOST_EXAMPLES = 3;

export function printReport({ rows, cases, pairs, healthy, tookS, failed }: Campaign): void {
  for (const row of rows) printRow(row);
  if (pairs.cases > 0) {
    console.log(`\n${pairs.cases} pairs: ${pairs.found} found, ${pairs.broken.length} broken`);
    printExamples(pairs.broken, 20);
  }
  if (healthy.jobs > 0) {
    console.log(
      `\n${healthy.jobs} sound jobs: ${healthy.wrong.length} with an alarm or cut short, ${healthy.misstated} with a figure outside its uncertainty`,
    );
    for (const { seed, alarms, end } of healthy.wrong.slice(0, 20)) {
      console.log(`    seed ${seed}: ${end}, ${alarms.join(', ') || 'no alarm'}`);
    }
  }
  const count = (state: RowSummary['state']): number =>
    rows.filter((row) => row.state === state).length;
  const states = (['found', 'accepted', 'not found', 'broken'] as const)
    .map((state) => `${count(state)} ${state}`)
    .join(', ');
  console.log(`\n${rows.length} rows in ${cases} cases: ${states}; ${tookS.toFixed(0)} s`);
  console.log(failed ? 'The campaign fails.' : 'Every invariant was kept.');
}

function printRow({ row, cases, found, by, state, broken }: RowSummary): void {
  const how = by
    .slice(0, MOST_EXAMPLES)
    .map((one) => `${one.by} ${one.cases} (${one.longestS.toFixed(1)} s)`)
    .join(', ');
  const share = `${found}/${cases}`;
  console.log(`${state.padEnd(10)}${row.id.padEnd(32)}${share.padEnd(8)}${how}`);
  printExamples(broken, MOST_EXAMPLES);
}

function printExamples(broken: readonly CaseResult[], most: number): void {
  for (const one of broken.slice(0, most)) console.log(`    ${one.id}: ${troubleOf(one)}`);
  if (broken.length > most) console.log(`    and ${broken.length - most} more`);
}
