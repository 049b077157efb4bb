/**
 * The report as text, 110 columns wide: a table a group, each row's source beneath it, and a summary
 * at the end. Colour says nothing that the words do not.
 */
import colours from 'picocolors';
import { KINDS } from '../check.ts';
import { type Figures, figuresOf } from './figures.ts';
import { KIND_TITLES } from './kinds.ts';
import { type GroupOutcome, type Outcome, ofKind, type Result, summaryOf } from './outcome.ts';

const WIDTH = 110;
const GAP = '  ';
const SOURCE_INDENT = '    ';
const COLUMNS = [
  { head: 'what', width: 36, left: true },
  { head: 'expected', width: 14, left: false },
  { head: 'model', width: 14, left: false },
  { head: 'difference', width: 10, left: false },
  { head: 'tolerance', width: 9, left: false },
  { head: 'unit', width: 9, left: true },
  { head: 'result', width: 6, left: true },
] as const;

const PAINT: Readonly<Record<Result, (text: string) => string>> = {
  ok: (text) => text,
  misses: colours.yellow,
  FAILS: colours.red,
};

/** Lines of whole words, at most `width` long; a longer word is cut. */
export function wrapped(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/).flatMap((long) => pieces(long, width))) {
    if (line !== '' && line.length + 1 + word.length > width) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line];
}

const pieces = (word: string, width: number): string[] =>
  word.length <= width
    ? [word]
    : Array.from({ length: Math.ceil(word.length / width) }, (_, i) =>
        word.slice(i * width, (i + 1) * width),
      );

/** Cells side by side, each wrapped inside its own column. */
function tableLines(cells: readonly string[]): string[] {
  const columns = COLUMNS.map(({ width }, i) => wrapped(cells[i] ?? '', width));
  const height = Math.max(...columns.map(({ length }) => length));
  return Array.from({ length: height }, (_, y) =>
    COLUMNS.map(({ width, left }, x) => {
      const text = columns[x]?.[y] ?? '';
      return left ? text.padEnd(width) : text.padStart(width);
    })
      .join(GAP)
      .trimEnd(),
  );
}

const indented = (text: string): string[] =>
  wrapped(text, WIDTH - SOURCE_INDENT.length).map((line) => SOURCE_INDENT + line);

function rowLines(outcome: Outcome): string[] {
  const { row, result, remark } = outcome;
  const { expected, actual, difference, tolerance }: Figures = figuresOf(outcome);
  const cells = [row.what, expected, actual, difference, tolerance, row.unit, result];
  return [
    ...tableLines(cells).map(PAINT[result]),
    ...indented(`${row.obtained}: ${row.source}`).map(colours.dim),
    ...(remark === '' ? [] : indented(remark)),
  ];
}

function groupLines({ title, outcomes }: GroupOutcome): string[] {
  const heads = tableLines(COLUMNS.map(({ head }) => head));
  return [
    '',
    colours.bold(title),
    ...heads.map(colours.dim),
    '-'.repeat(WIDTH),
    ...outcomes.flatMap(rowLines),
  ];
}

export function terminalReport(groups: readonly GroupOutcome[]): string {
  const { kinds, obtained } = summaryOf(groups);
  const present = KINDS.filter((kind) => kinds[kind].rows > 0);
  const summary = present.flatMap((kind) => {
    const { rows, facts, results } = kinds[kind];
    const { ok, misses, FAILS } = results;
    const held = `${ok} hold, ${misses} miss as stated, ${FAILS} fail`;
    return wrapped(`${KIND_TITLES[kind]}: ${rows} rows, ${facts} different facts: ${held}.`, WIDTH);
  });
  const origins = obtained.map(([name, count]) => `${count} ${name}`).join(', ');
  const sections = present.flatMap((kind) => [
    '',
    colours.bold(KIND_TITLES[kind].toUpperCase()),
    ...ofKind(groups, kind).flatMap(groupLines),
  ]);
  return [
    ...sections,
    '',
    'Kinds of evidence, which are never added up:',
    ...summary,
    ...wrapped(`Expected values: ${origins}.`, WIDTH),
    '',
  ].join('\n');
}
