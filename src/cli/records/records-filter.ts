/** The options that select records, the same for every command; dates are checked. */
import { type Command, InvalidArgumentError, Option } from 'commander';
import { z } from 'zod';
import { DAMAGE_TYPES } from '../../intake/sheet/job-sheet.ts';
import { CLAIM_ROWS, type ClaimId } from '../../report/claims/claim-table.ts';
import type { RepairVerdict } from '../../store/chain/repair-body.ts';
import { RESULT_COLUMNS, type RecordFilter, type ResultWord } from '../../store/index/find.ts';

export interface FilterOptions {
  readonly from?: string;
  readonly to?: string;
  readonly vehicle?: string;
  readonly technician?: string;
  readonly damage?: string;
  readonly result?: ResultWord;
  readonly unit?: string;
  readonly lot?: string;
  readonly verdict?: string;
  readonly notShown?: ClaimId;
  readonly notMet?: ClaimId;
  readonly limit?: number;
}

/** What a person types for each verdict that a record may state. */
const VERDICT_WORDS: Readonly<Record<RepairVerdict, string>> = {
  'process within its limits': 'within-limits',
  'process within its limits, with interruptions': 'interruptions',
  'process within its limits, with reservations': 'reservations',
  'process not shown to be within its limits': 'not-shown',
  'dose not shown to be met': 'dose-not-shown',
  'process outside its limits': 'outside-limits',
  'process not completed': 'not-completed',
  'record incomplete, process not judged': 'record-incomplete',
  'record changed, process not judged': 'record-changed',
  'journal cannot be read': 'unreadable',
};

const verdictCalled = (word: string | undefined): string | undefined =>
  Object.entries(VERDICT_WORDS).find(([, called]) => called === word)?.[0];

const CLAIM_IDS = CLAIM_ROWS.map(({ id }) => id);

const date = z.iso.date();

function parseDay(words: string): string {
  if (date.safeParse(words).success) return words;
  throw new InvalidArgumentError('accepted: an existing day, as YYYY-MM-DD.');
}

const MOST_LISTED = 1_000_000;

function parseLimit(words: string): number {
  const limit = Number(words);
  if (/^\d+$/.test(words) && limit >= 1 && limit <= MOST_LISTED) return limit;
  throw new InvalidArgumentError(`accepted: a whole number from 1 to ${MOST_LISTED}.`);
}

export const addFilterOptions = (command: Command): Command =>
  command
    .option('--from <day>', 'first day, YYYY-MM-DD (UTC)', parseDay)
    .option('--to <day>', 'last day, inclusive', parseDay)
    .option('--vehicle <text>', 'reference of the vehicle, while it is kept')
    .option('--technician <text>', 'technician, while it is kept')
    .addOption(new Option('--damage <type>', 'type of damage').choices(DAMAGE_TYPES))
    .addOption(
      new Option('--result <word>', 'grade, outcome or end').choices(Object.keys(RESULT_COLUMNS)),
    )
    .addOption(
      new Option('--verdict <word>', 'verdict on the process').choices(
        Object.values(VERDICT_WORDS),
      ),
    )
    .addOption(
      new Option('--not-shown <claim>', 'claim that is not shown, or worse, not met').choices(
        CLAIM_IDS,
      ),
    )
    .addOption(new Option('--not-met <claim>', 'claim that is not met').choices(CLAIM_IDS))
    .option('--unit <text>', "the unit's name, or its board's serial number")
    .option('--lot <text>', 'lot of the resin')
    .option('--limit <n>', 'greatest number of results', parseLimit);

/** Null where the days contradict each other. */
export function filterOf(options: FilterOptions): RecordFilter | null {
  const { from, to, verdict } = options;
  if (from !== undefined && to !== undefined && from > to) return null;
  const { vehicle, technician, damage, result, unit, lot, notShown, notMet, limit } = options;
  return {
    ...{ from, to, vehicle, technician, damage, result, unit, lot, notShown, notMet, limit },
    verdict: verdictCalled(verdict),
  };
}

export const contradiction = ({ from, to }: FilterOptions): string =>
  `--from is ${from} and --to is ${to}; accepted: a --to not before --from`;
