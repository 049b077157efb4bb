/**
 * The columns of a tick line and the journal's version. Every header names both, so that a journal is
 * read by its own names and not by what the program would write today. What stands in a column is
 * decided in tick-line.ts.
 */
import { z } from 'zod';
import { CHANNEL_ROWS, CHANNELS, type Channel } from '../core/frame.ts';

/** Raise it where lines or fields change their meaning, and migrate the older ones in migration.ts. */
const LAYOUT_VERSION = 2;
/** A channel that was added counts too: journals from before it have no column for it. */
export const JOURNAL_VERSION = Math.max(
  LAYOUT_VERSION,
  ...CHANNELS.map((channel) => CHANNEL_ROWS[channel].inJournalSince),
);

export type JournalSchema = `meniscus/journal@${number}`;
const schemaOf = (version: number): JournalSchema => `meniscus/journal@${version}`;
export const JOURNAL_SCHEMA = schemaOf(JOURNAL_VERSION);
/** Of all versions that can be read, oldest first. */
export const JOURNAL_SCHEMAS = Array.from({ length: JOURNAL_VERSION }, (_, i) => schemaOf(i + 1));

/** Null for what is no journal, or one of a later version. */
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
  /** These two are left out where nobody pressed or asked for anything. */
  'buttons',
  'requests',
] as const;

export type Column = (typeof BEFORE_COUNTS)[number] | Channel | (typeof AFTER_COUNTS)[number];

/** As they are written today. */
export const COLUMNS: readonly Column[] = [...BEFORE_COUNTS, ...CHANNELS, ...AFTER_COUNTS];

const isChannel = (column: Column): column is Channel => column in CHANNEL_ROWS;

/** Whether a journal of that version has it. */
const standsIn = (version: number, column: Column): boolean =>
  !isChannel(column) || CHANNEL_ROWS[column].inJournalSince <= version;

/** Each column of that version once, in any order: lines are read by name. */
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
