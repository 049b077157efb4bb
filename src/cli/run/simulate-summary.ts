/**
 * Summarises a series of simulated runs: how many ended how, and mean and standard deviation of the
 * measured results. Pure; the table of single runs and the summary are text for a terminal.
 */
import { kPaFromPa } from '../../core/units.ts';
import type { RunResult } from './simulated-run.ts';

export interface Spread {
  readonly what: string;
  readonly unit: string;
  readonly runs: number;
  readonly mean: number;
  /** Of single runs, with n - 1; null for one run. */
  readonly standardDeviation: number | null;
  readonly least: number;
  readonly most: number;
}

const REPEATED: readonly (readonly [string, string, (run: RunResult) => number | null, number])[] =
  [
    [
      'vacuum held',
      'kPa abs',
      ({ vacuumReachedPa: pa }) => (pa === null ? null : kPaFromPa(pa)),
      2,
    ],
    [
      'pressure held',
      'kPa abs',
      ({ pressureReachedPa: pa }) => (pa === null ? null : kPaFromPa(pa)),
      2,
    ],
    ['filled', '%', ({ filledRatio }) => filledRatio * 100, 1],
    ['dose', 'J/cm2', ({ doseJPerM2: j }) => (j === null ? null : j / 1e4), 3],
    ['lamp on', 's', ({ lampOnS }) => lampOnS, 1],
    ['job', 'min', ({ boardS }) => boardS / 60, 2],
  ];

export function spreadsOf(runs: readonly RunResult[]): readonly Spread[] {
  return REPEATED.flatMap(([what, unit, pick]): Spread[] => {
    const values = runs.map(pick).filter((value) => value !== null);
    if (values.length === 0) return [];
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
    return [
      {
        what,
        unit,
        runs: values.length,
        mean,
        standardDeviation: values.length < 2 ? null : Math.sqrt(squares / (values.length - 1)),
        least: Math.min(...values),
        most: Math.max(...values),
      },
    ];
  });
}

const endOf = ({ reason, outcome }: RunResult): string =>
  outcome === null ? reason : `${reason}, ${outcome}`;

/** Number of each kind of end, most frequent first. */
export function endsOf(runs: readonly RunResult[]): readonly (readonly [string, number])[] {
  const counts = new Map<string, number>();
  for (const run of runs) counts.set(endOf(run), (counts.get(endOf(run)) ?? 0) + 1);
  return [...counts].sort((one, other) => other[1] - one[1]);
}

export const RUN_HEAD = '  seed   min  cycles  filled   J/cm2  lamp s  end';

export function runLine(run: RunResult): string {
  const dose = run.doseJPerM2 === null ? '-' : (run.doseJPerM2 / 1e4).toFixed(2);
  const cells = [
    String(run.seed).padStart(6),
    (run.boardS / 60).toFixed(1).padStart(6),
    String(run.cycles).padStart(8),
    `${(run.filledRatio * 100).toFixed(0)} %`.padStart(8),
    dose.padStart(8),
    (run.lampOnS === null ? '-' : run.lampOnS.toFixed(0)).padStart(8),
  ];
  const alarms = run.alarms.length === 0 ? '' : ` (${[...new Set(run.alarms)].join(', ')})`;
  return `${cells.join('')}  ${endOf(run)}${alarms}`;
}

export function summaryLines(runs: readonly RunResult[]): readonly string[] {
  const ends = endsOf(runs).map(([end, count]) => `${count} ${end}`);
  const rows = spreadsOf(runs).map(({ what, unit, mean, standardDeviation, least, most }) => {
    const digits = REPEATED.find(([name]) => name === what)?.[3] ?? 2;
    const spread = standardDeviation === null ? '' : ` s ${standardDeviation.toFixed(digits)}`;
    const range = `${least.toFixed(digits)} to ${most.toFixed(digits)} ${unit}`;
    return `  ${what.padEnd(14)}mean ${mean.toFixed(digits)}${spread}, ${range}`;
  });
  return [`${runs.length} ${runs.length === 1 ? 'run' : 'runs'}: ${ends.join('; ')}`, ...rows];
}
