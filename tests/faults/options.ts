/** The options of `npm run faults`, checked: what is not understood is told with what is. */
import { parseArgs } from 'node:util';
import type { Row } from './row.ts';
import { ROWS, ROWS_BY_PLACE } from './rows.ts';

export interface Options {
  readonly rows: readonly Row[];
  /** All rows of the table were asked for. */
  readonly whole: boolean;
  /** One in so many cases of the rows. */
  readonly every: number;
  readonly pairs: number;
  readonly healthy: number;
  readonly seed: number;
  /** The rows of line, board and firmware on the emulated board instead. */
  readonly board: Board;
  /** One case alone, with its trace. */
  readonly case: string | null;
  readonly journal: string | null;
  readonly page: string | null;
  readonly help: boolean;
}

const BOARDS = ['simulated', 'emulated'] as const;
type Board = (typeof BOARDS)[number];

export type ParsedOptions =
  | { readonly ok: true; readonly value: Options }
  | { readonly ok: false; readonly problem: string };

export const USAGE = `npm run faults -- [options]
  --rows LIST     rows or places, comma between; a place is one of ${Object.keys(ROWS_BY_PLACE).join(', ')}
  --every N       one in so many cases of the rows, for a quick look (1)
  --pairs N       seeded pairs of faults (2000; 0 where rows are named)
  --healthy N     sound jobs with a seed each, for false alarms (1000; 0 where rows are named)
  --seed N        (1)
  --board NAME    simulated, or emulated: the rows of line, board and firmware on the real firmware image (simulated)
  --case ID       one case alone, with its trace; the campaign prints the id
  --journal FILE  with --case: writes its journal, for \`meniscus report\`
  --page FILE     where the page goes (tests/faults/PROVED.md for a whole campaign, else none)`;

const OPTIONS = {
  rows: { type: 'string' },
  every: { type: 'string' },
  pairs: { type: 'string' },
  healthy: { type: 'string' },
  seed: { type: 'string' },
  board: { type: 'string' },
  case: { type: 'string' },
  journal: { type: 'string' },
  page: { type: 'string' },
  help: { type: 'boolean' },
} as const;

export function parseOptions(args: readonly string[]): ParsedOptions {
  try {
    const { values } = parseArgs({ args: [...args], options: OPTIONS, strict: true });
    return { ok: true, value: checked(values) };
  } catch (error) {
    return { ok: false, problem: error instanceof Error ? error.message : String(error) };
  }
}

type Values = Readonly<Partial<Record<Exclude<keyof typeof OPTIONS, 'help'>, string>>> & {
  readonly help?: boolean;
};

function checked(values: Values): Options {
  const { rows: named, case: id, journal, page, help } = values;
  const whole = named === undefined;
  const rows = whole ? ROWS : named.split(',').flatMap(rowsNamed);
  const every = Math.max(1, count('every', values.every, 1));
  const usual = (count: number): number => (whole ? count : 0);
  if (journal !== undefined && id === undefined) throw new Error('--journal needs --case ID');
  return {
    rows: [...new Set(rows)],
    whole: whole && every === 1 && boardOf(values.board) === 'simulated',
    every,
    pairs: count('pairs', values.pairs, usual(2000)),
    healthy: count('healthy', values.healthy, usual(1000)),
    seed: count('seed', values.seed, 1),
    board: boardOf(values.board),
    case: id ?? null,
    journal: journal ?? null,
    page: page ?? null,
    help: help ?? false,
  };
}

function boardOf(given = 'simulated'): Board {
  const board = BOARDS.find((name) => name === given);
  if (board === undefined) throw new Error(`--board is ${given}; accepted: ${BOARDS.join(', ')}`);
  return board;
}

const MOST = 1_000_000;

function count(name: string, given: string | undefined, usual: number): number {
  if (given === undefined) return usual;
  const value = Number(given);
  if (given.trim() !== '' && Number.isSafeInteger(value) && value >= 0 && value <= MOST) {
    return value;
  }
  throw new Error(`--${name} is ${given}; accepted: a whole number from 0 to ${MOST}`);
}

function rowsNamed(name: string): readonly Row[] {
  const place = Object.entries(ROWS_BY_PLACE).find(([id]) => id === name)?.[1];
  const found = place ?? ROWS.filter(({ id }) => id === name);
  if (found.length > 0) return found;
  const near = ROWS.filter(({ id }) => id.includes(name)).map(({ id }) => id);
  const told =
    near.length > 0 ? near : [...Object.keys(ROWS_BY_PLACE), ...ROWS.map(({ id }) => id)];
  throw new Error(`--rows: there is no row or place ${name}; there are ${told.join(', ')}`);
}
