/**
 * Writes a table of repairs as text, piece by piece so that memory use stays flat: CSV (RFC 4180,
 * with a header line) or JSON Lines. A CSV cell that a spreadsheet would take for a formula is
 * turned into text. The output may go to a terminal, so control characters in older records are
 * escaped; JSON readers restore them.
 */
import { stringify } from 'csv-stringify/sync';
import { escapedValue } from '../../core/plain-text.ts';
import type { FoundRepair } from '../index/find.ts';
import type { ExportColumn } from './export-columns.ts';

const ROWS_AT_ONCE = 500;

export function* csvPieces(
  repairs: Iterable<FoundRepair>,
  columns: readonly ExportColumn[],
): Generator<string> {
  yield csvOf([columns.map(({ name }) => name)]);
  for (const rows of inBatches(repairs)) {
    yield csvOf(rows.map((repair) => columns.map(({ value }) => value(repair))));
  }
}

const csvOf = (rows: readonly (readonly unknown[])[]): string =>
  stringify([...rows], {
    record_delimiter: 'windows',
    escape_formulas: true,
    cast: { boolean: (value) => (value ? 'true' : 'false'), string: escapedValue },
  });

export function* jsonPieces(
  repairs: Iterable<FoundRepair>,
  columns: readonly ExportColumn[],
): Generator<string> {
  for (const rows of inBatches(repairs)) {
    yield rows
      .map((repair) => Object.fromEntries(columns.map(({ name, value }) => [name, value(repair)])))
      .map((row) => `${escapedValue(JSON.stringify(row))}\n`)
      .join('');
  }
}

function* inBatches(repairs: Iterable<FoundRepair>): Generator<readonly FoundRepair[]> {
  let batch: FoundRepair[] = [];
  for (const repair of repairs) {
    batch.push(repair);
    if (batch.length < ROWS_AT_ONCE) continue;
    yield batch;
    batch = [];
  }
  if (batch.length > 0) yield batch;
}
