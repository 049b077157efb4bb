/**
 * Text of a journal to its contents, or the line that is wrong. A torn last line is dropped with a
 * remark, since a power cut leaves one; anything else malformed is refused, because a record must
 * not be read half. A missing footer reads as an interrupted job. Whether remarks matter is left to
 * whoever reads.
 */
import type { z } from 'zod';
import { sha256Of } from '../core/canonical-json.ts';
import type { Event, Snapshot } from '../core/events.ts';
import { type Checked, checkSettings, type SettingsProblem } from '../core/settings.ts';
import { JOURNAL_SCHEMAS, versionOf } from './columns.ts';
import type { JournalEnd, JournalFooter, JournalHeader } from './journal-format.ts';
import { remarksOn } from './journal-remarks.ts';
import { eventSchema, footerSchema, headerSchemaOf, snapshotSchema } from './line-schemas.ts';
import { type Migration, migrationOf } from './migration.ts';
import {
  fieldNamer,
  type JournalTick,
  type NamedFields,
  plainTick,
  tickSchema,
} from './tick-line.ts';

export interface JournalContents {
  readonly header: JournalHeader;
  readonly ticks: readonly JournalTick[];
  readonly events: readonly Event[];
  readonly snapshots: readonly Snapshot[];
  /** As the footer says; 'interrupted' where there is none. */
  readonly end: JournalEnd;
  readonly footer: JournalFooter | null;
  /** Whether the bytes are those that the footer was written for; null where there is none. */
  readonly intact: boolean | null;
  /** Whether a last line was cut off and left out. */
  readonly torn: boolean;
  /** SHA-256 of all bytes before the footer, or of the whole lines where there is none. */
  readonly sha256: string;
  /** What a reader should know about the file, in plain words; empty where all is well. */
  readonly remarks: readonly string[];
}

const NO_FOOTER: JournalEnd = {
  reason: 'interrupted',
  why: 'The journal stops without an end: power, program or disk failed.',
  outcome: null,
};

/** The same as of a journal that broke off, for one whose end is known not to have got onto the disk. */
export const withoutEnd = (contents: JournalContents): JournalContents => ({
  ...contents,
  footer: null,
  intact: null,
  end: NO_FOOTER,
});

interface Line {
  readonly number: number;
  readonly text: string;
}

interface Lines {
  readonly whole: readonly Line[];
  /** Bytes after the last line that could be read. */
  readonly torn: string;
}

/** How this journal's lines are read, as its header says. */
interface Reading {
  readonly file: string;
  readonly migration: Migration;
  readonly named: (values: readonly unknown[]) => NamedFields;
}

interface Gathered {
  readonly ticks: JournalTick[];
  readonly events: Event[];
  readonly snapshots: Snapshot[];
  footer: JournalFooter | null;
}

export function readJournal(text: string, file: string): Checked<JournalContents> {
  const { whole, torn } = splitLines(text);
  const [first, ...rest] = whole;
  if (first === undefined) {
    return refuse(file, 1, torn, 'a whole header line as the first');
  }
  const opened = readHeader(first, file);
  if (!opened.ok) return opened;
  const { header, migration } = opened.value;
  const how: Reading = { file, migration, named: fieldNamer(header.columns) };
  const gathered: Gathered = { ticks: [], events: [], snapshots: [], footer: null };
  for (const line of rest) {
    const problem = takeLine(line, how, gathered);
    if (problem !== null) return { ok: false, problems: problem };
  }
  return { ok: true, value: contentsOf(header, gathered, whole, torn) };
}

/** Every written line ends in a line feed; what follows the last one counts only if it is whole. */
function splitLines(text: string): Lines {
  const parts = text.split('\n');
  const last = parts.pop() ?? '';
  const whole = parts.map((line, index): Line => ({ number: index + 1, text: line }));
  if (last === '') return { whole, torn: '' };
  const isWhole = parse(last) !== undefined;
  return isWhole
    ? { whole: [...whole, { number: whole.length + 1, text: last }], torn: '' }
    : { whole, torn: last };
}

function readHeader(
  line: Line,
  file: string,
): Checked<{ readonly header: JournalHeader; readonly migration: Migration }> {
  const value = parse(line.text);
  const given = isObject(value) ? value : {};
  const { schema } = given;
  const version = versionOf(schema);
  if (version === null) {
    const known = JOURNAL_SCHEMAS.map((name) => `"schema":"${name}"`).join(' or ');
    const seen = typeof schema === 'string' ? schema : line.text;
    return refuse(file, line.number, seen, `a journal that begins with ${known}`);
  }
  const migration = migrationOf(version, given);
  const checked = check(headerSchemaOf(version), migration.header(given), file, line, 'header');
  return checked.ok ? { ok: true, value: { header: checked.value, migration } } : checked;
}

/** Null where the line was taken. */
function takeLine(
  line: Line,
  { file, migration, named }: Reading,
  into: Gathered,
): readonly SettingsProblem[] | null {
  if (into.footer !== null) return problemAt(file, line.number, line.text, 'nothing after the end');
  const value = parse(line.text);
  const take = <T>(schema: z.ZodType<T>, part: unknown, name: string, keep: (value: T) => void) => {
    const checked = check(schema, part, file, line, name);
    if (!checked.ok) return checked.problems;
    keep(checked.value);
    return null;
  };
  if (Array.isArray(value)) {
    const fields = named(migration.tick(value));
    const plain = plainTick(fields);
    if (plain === null) return take(tickSchema, fields, 'tick', (t) => into.ticks.push(t));
    into.ticks.push(plain);
    return null;
  }
  const [entry, ...more] = isObject(value) ? Object.entries(value) : [];
  const [key, part] = more.length === 0 ? (entry ?? []) : [];
  switch (key) {
    case 'event':
      return take(eventSchema, migration.event(part), key, (e) => into.events.push(e));
    case 'snapshot':
      return take(snapshotSchema, part, key, (s) => into.snapshots.push(s));
    case 'end':
      return take(footerSchema, part, key, (f) => {
        into.footer = f;
      });
    default:
      return problemAt(
        file,
        line.number,
        line.text,
        'a tick, {"event"}, {"snapshot"} or {"end"} in JSON',
      );
  }
}

function contentsOf(
  header: JournalHeader,
  { ticks, events, snapshots, footer }: Gathered,
  whole: readonly Line[],
  torn: string,
): JournalContents {
  const hashed = footer === null ? whole : whole.slice(0, -1);
  const sha256 = sha256Of(hashed.map(({ text }) => `${text}\n`).join(''));
  const intact = footer === null ? null : footer.sha256 === sha256;
  const { reason, why, outcome } = footer ?? NO_FOOTER;
  const contents = { header, ticks, events, snapshots, footer, intact, sha256 };
  return {
    ...contents,
    torn: torn !== '',
    end: { reason, why, outcome },
    remarks: remarksOn(contents, whole.length, torn.length),
  };
}

function check<T>(
  schema: z.ZodType<T>,
  value: unknown,
  file: string,
  line: Line,
  name: string,
): Checked<T> {
  const checked = checkSettings(schema, value, file);
  if (checked.ok) return checked;
  return {
    ok: false,
    problems: checked.problems.map((problem) => ({
      ...problem,
      path: `line ${line.number}, ${[name, problem.path].filter((part) => part !== '').join('.')}`,
    })),
  };
}

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Undefined where it is not JSON; JSON itself has no such value. */
function parse(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

function problemAt(
  file: string,
  number: number,
  text: string,
  accepted: string,
): readonly SettingsProblem[] {
  const value = text === '' ? 'empty' : text.length > 60 ? `${text.slice(0, 57)}...` : text;
  return [{ file, path: `line ${number}`, value, accepted }];
}

const refuse = <T>(file: string, number: number, text: string, accepted: string): Checked<T> => ({
  ok: false,
  problems: problemAt(file, number, text, accepted),
});
