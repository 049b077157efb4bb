/** `meniscus records list`: repairs, newest first, one line each, or as JSON. */
import type { Command } from 'commander';
import { escapedValue } from '../../core/plain-text.ts';
import { mJPerCm2FromJPerM2 } from '../../core/units.ts';
import type { FoundRepair } from '../../store/index/find.ts';
import { EXIT } from '../terminal/exit-codes.ts';
import { complain, type RecordsOptions, withRecords } from '../terminal/open-records.ts';
import { print } from '../terminal/print.ts';
import { addFilterOptions, contradiction, type FilterOptions, filterOf } from './records-filter.ts';

interface ListOptions extends FilterOptions, RecordsOptions {
  readonly json: boolean;
}

const USUAL_LIMIT = 50;

export function addList(records: Command): void {
  addFilterOptions(
    records.command('list').description('matching repairs, newest first (50, or --limit)'),
  )
    .option('--json', 'as JSON', false)
    .addHelpText(
      'after',
      '\nExamples: meniscus records list --from 2026-01-01 --result bad\n          meniscus records list --not-shown dose\n',
    )
    .action(async (_, command: Command) => {
      process.exitCode = await list(command.optsWithGlobals<ListOptions>());
    });
}

async function list(options: ListOptions): Promise<number> {
  const filter = filterOf(options);
  if (filter === null) {
    complain([contradiction(options)]);
    return EXIT.badInput;
  }
  return withRecords(options.records, 'read', (store) => {
    const found = store.find({ ...filter, limit: filter.limit ?? USUAL_LIMIT });
    const text = options.json ? `${JSON.stringify(found, null, 2)}\n` : tableOf(found);
    print(text);
    return EXIT.completed;
  });
}

const HEAD = [
  'started (UTC)',
  'record',
  'damage',
  'result',
  'claims shown',
  'dose J/cm2',
  'vehicle',
] as const;

function tableOf(found: readonly FoundRepair[]): string {
  if (found.length === 0) return 'No matching repair.\n';
  const rows = [HEAD, ...found.map(cellsOf)];
  const widths = HEAD.map((_, column) => Math.max(...rows.map((row) => row[column]?.length ?? 0)));
  const simulated = found.some((repair) => repair.simulated === 1);
  const foot = simulated ? ['~ simulated: no real glass was worked on'] : [];
  return `${[...rows.map((row) => lineOf(row, widths)), ...foot].join('\n')}\n`;
}

/** A recorded value may hold whatever older programs accepted: it stays inside its cell. */
const cellsOf = (repair: FoundRepair): readonly string[] => rawCellsOf(repair).map(escapedValue);

const rawCellsOf = (repair: FoundRepair): readonly string[] => [
  repair.startedAt.slice(0, 16).replace('T', ' '),
  `${repair.simulated === 1 ? '~' : ''}${repair.id}`,
  repair.damage ?? 'not known',
  resultWords(repair),
  claimWords(repair),
  doseWords(repair),
  repair.vehicle ?? (repair.removedAt === null ? '-' : 'removed'),
];

const lineOf = (cells: readonly string[], widths: readonly number[]): string =>
  cells
    .map((cell, column) => cell.padEnd(widths[column] ?? 0))
    .join(' ')
    .trimEnd();

const END: Readonly<Record<string, string>> = {
  'stopped-by-person': 'stopped',
  alarm: 'alarm stop',
  interrupted: 'interrupted',
  fault: 'fault',
};

/** Results that a reader must not overlook, besides the person's finding. */
const NOT_GOOD: Readonly<Record<string, string>> = {
  'process within its limits, with reservations': 'with reservations',
  'process not shown to be within its limits': 'not shown',
  'process outside its limits': 'outside limits',
  'dose not shown to be met': 'dose not shown',
  'record changed, process not judged': 'record changed',
};

const resultWords = ({ endReason, outcome, verdict }: FoundRepair): string =>
  endReason === 'completed'
    ? [outcome ?? 'completed', NOT_GOOD[verdict]].filter((word) => word !== undefined).join(', ')
    : (END[endReason] ?? endReason);

/** How many claims of how many; the record itself names the others (`records show`). */
function claimWords({ claimsShown, claimsNotShown, claimsNotMet }: FoundRepair): string {
  if (claimsShown === null) return 'none stated';
  const all = claimsShown + (claimsNotShown ?? 0) + (claimsNotMet ?? 0);
  return `${claimsShown} of ${all}`;
}

function doseWords({ doseJPerM2, doseVerdict }: FoundRepair): string {
  if (doseJPerM2 === null || doseVerdict === null) return 'not known';
  if (doseVerdict === 'not recorded') return doseVerdict;
  return `${(mJPerCm2FromJPerM2(doseJPerM2) / 1000).toFixed(2)} ${doseVerdict}`;
}
