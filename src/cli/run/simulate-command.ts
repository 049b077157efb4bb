/**
 * `meniscus simulate`: many unattended repairs on the simulated board, one seed after another, for
 * each named profile. It shows whether a profile does what it should, and how well it repeats,
 * before any glass is touched. It writes no records.
 */
import type { Command } from 'commander';
import { loadSettings } from '../../app/prepare/load-settings.ts';
import { problemLine } from '../../core/settings.ts';
import { EXIT } from '../terminal/exit-codes.ts';
import { collect, parseAltitude, parseCount, parseSeed } from '../terminal/parse-option.ts';
import { print } from '../terminal/print.ts';
import { createProgress } from '../terminal/progress.ts';
import { refuse } from '../terminal/refuse.ts';
import { endsOf, RUN_HEAD, runLine, spreadsOf, summaryLines } from './simulate-summary.ts';
import type { RunResult } from './simulated-run.ts';
import { collectFault, FAULT_NAMES, scenarioOf } from './simulated-scenario.ts';

interface SimulateOptions {
  readonly runs: number;
  readonly seed: number;
  readonly altitude: number;
  readonly fault: readonly string[];
  readonly profile: readonly string[];
  readonly job?: string;
  readonly unit?: string;
  readonly plant?: string;
  readonly json: boolean;
}

export function addSimulateCommand(program: Command): void {
  program
    .command('simulate')
    .description(
      'many unattended repairs on the simulated board: how well a profile works and repeats',
    )
    .option('--runs <n>', 'number of runs, one seed after another', parseCount, 10)
    .option('--seed <n>', 'the first seed', parseSeed, 1)
    .option('--profile <file>', 'profile (JSON); repeatable, to compare', collect, [])
    .option('--job <file>', 'job sheet (JSON)')
    .option('--unit <file>', 'settings of the unit (JSON)')
    .option('--altitude <m>', 'altitude of the simulated bench', parseAltitude, 60)
    .option('--fault <name>', 'simulate a fault: a name below, or a file', collectFault, [])
    .option('--plant <file>', 'the simulated plant (JSON)')
    .option('--json', 'the results as JSON', false)
    .addHelpText(
      'after',
      `\nFaults: ${FAULT_NAMES.join(', ')}\nExample: meniscus simulate --runs 20 --fault weak-lamp\n`,
    )
    .action(async (options: SimulateOptions) => {
      process.exitCode = await simulateCommand(options);
    });
}

async function simulateCommand(options: SimulateOptions): Promise<number> {
  const profiles = options.profile.length === 0 ? [undefined] : options.profile;
  const loaded = profiles.map((profile) => loadSettings({ ...options, profile }));
  const problems = loaded.flatMap((one) => (one.ok ? [] : one.problems));
  const configs = loaded.flatMap((one) => (one.ok ? [one.value.config] : []));
  const scenario = { ...options, manual: false };
  for (const config of configs) {
    const checked = scenarioOf(scenario, config);
    if (!checked.ok) problems.push(...checked.problems);
  }
  if (problems.length > 0) return refuse([...new Set(problems.map(problemLine))]);
  // The whole plant is loaded only when something runs on it.
  const { simulatedRun } = await import('./simulated-run.ts');
  const progress = createProgress('simulated repairs', configs.length * options.runs);
  const series = [];
  const started = performance.now();
  for (const config of configs) {
    const runs = [];
    if (!options.json) print(`${config.profile.name}\n${RUN_HEAD}\n`);
    for (let run = 0; run < options.runs; run++) {
      const result = await simulatedRun({ ...scenario, seed: options.seed + run }, config);
      runs.push(result);
      progress.clear();
      if (!options.json) print(`${runLine(result)}\n`);
      progress.step();
    }
    progress.clear();
    if (!options.json) print(`${summaryLines(runs).join('\n')}\n\n`);
    series.push({
      profile: config.profile.name,
      runs,
      ends: endsOf(runs),
      spread: spreadsOf(runs),
    });
  }
  if (options.json) print(`${JSON.stringify(series, null, 2)}\n`);
  else print(speedLine(series, (performance.now() - started) / 1000));
  return EXIT.completed;
}

function speedLine(series: readonly { readonly runs: readonly RunResult[] }[], wallS: number) {
  const boardS = series.flatMap(({ runs }) => runs).reduce((sum, run) => sum + run.boardS, 0);
  return `${(boardS / 60).toFixed(0)} min of board time in ${wallS.toFixed(1)} s (${(boardS / wallS).toFixed(0)} x real time)\n`;
}
