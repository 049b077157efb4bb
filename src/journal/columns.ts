/**
 * The columns of a tick line and the journal's version. Every header states both, so that a journal
 * is read by its own column names and not by those that the program would write today. tick-line.ts
 * defines the content of each column.
 */
import { z } from 'zod';
import { CHANNEL_ROWS, CHANNELS, type Channel } from '../core/frame.ts';

/**
 * Raise it when lines or fields change their meaning, and migrate older journals in migration.ts.
 */
const LAYOUT_VERSION = 3;
/** An added channel counts, too: older journals have no column for it. */
export const JOURNAL_VERSION = Math.max(
  LAYOUT_VERSION,
  ...CHANNELS.map((channel) => CHANNEL_ROWS[channel].inJournalSince),
);

export type JournalSchema = `meniscus/journal@${number}`;
const schemaOf = (version: number): JournalSchema => `meniscus/journal@${version}`;
export const JOURNAL_SCHEMA = schemaOf(JOURNAL_VERSION);
/** Schemas of all readable versions, oldest first. */
export const JOURNAL_SCHEMAS = Array.from({ length: JOURNAL_VERSION }, (_, i) => schemaOf(i + 1));

/** Null for anything but a journal, and for a later version. */
export function versionOf(schema: unknown): number | null {
  const index = JOURNAL_SCHEMAS.findIndex((known) => known === schema);
  return index < 0 ? null : index + 1;
}

const BEFORE_COUNTS = ['sequence', 'timeS', 'sampledAtS'] as const;
const AFTER_COUNTS = [
  'frameBits',
  'pumpRatio',
  'actuatorBits',
  'lampRatio',
  'hostTimeS',
  /** These three are left out when no button was down and nothing was requested. */
  'ladder',
  'buttons',
  'requests',
] as const;

export type Column = (typeof BEFORE_COUNTS)[number] | Channel | (typeof AFTER_COUNTS)[number];

/** The columns as written today. */
export const COLUMNS: readonly Column[] = [...BEFORE_COUNTS, ...CHANNELS, ...AFTER_COUNTS];

const isChannel = (column: Column): column is Channel => column in CHANNEL_ROWS;

/** Boards of that time had three buttons, and told nothing of their ladder but presses. */
const LADDER_SINCE = 3;

/** Whether a journal of that version has the column. */
function standsIn(version: number, column: Column): boolean {
  if (column === 'ladder') return LADDER_SINCE <= version;
  return !isChannel(column) || CHANNEL_ROWS[column].inJournalSince <= version;
}

/** Each column of that version exactly once, in any order: lines are read by name. */
export const columnsSchema = (version: number): z.ZodType<readonly Column[]> => {
  const known = COLUMNS.filter((column) => standsIn(version, column));
  return z
    .array(z.enum(known, { error: `one of the columns ${known.join(', ')}` }))
    .check(({ value, issues }) => {
      for (const [index, column] of value.entries()) {
        if (value.indexOf(column) === index) continue;
        issues.push({
          code: 'custom',
          input: value,
          path: [index],
          message: `each column once; ${column} stands there already`,
        });
      }
      for (const column of known.filter((one) => !value.includes(one))) {
        issues.push({ code: 'custom', input: value, message: `columns with ${column} among them` });
      }
    });
};
