/**
 * Writes a table of repairs as an Apache Parquet file, one row group at a time so that memory use
 * stays flat. The format needs a file, not a stream. export-columns.ts decides the columns.
 */
import { type BasicType, fileWriter, ParquetWriter, schemaFromColumnData } from 'hyparquet-writer';
import type { FoundRepair } from '../index/find.ts';
import type { ExportColumn } from './export-columns.ts';

const TYPES: Readonly<Record<ExportColumn['type'], BasicType>> = {
  text: 'STRING',
  number: 'DOUBLE',
  'whole number': 'INT32',
  'yes or no': 'BOOLEAN',
};

/** Small enough for the memory of each group to be released soon. */
const ROWS_IN_GROUP = 2000;

export function writeParquet(
  path: string,
  repairs: Iterable<FoundRepair>,
  columns: readonly ExportColumn[],
): void {
  const empty = columns.map(({ name, type }) => ({
    name,
    data: [],
    type: TYPES[type],
    nullable: true,
  }));
  const writer = new ParquetWriter({
    writer: fileWriter(path),
    schema: schemaFromColumnData({ columnData: empty }),
  });
  let group: FoundRepair[] = [];
  const write = (): void => {
    if (group.length === 0) return;
    const columnData = columns.map(({ name, value }) => ({ name, data: group.map(value) }));
    writer.write({ columnData, rowGroupSize: ROWS_IN_GROUP });
    group = [];
  };
  for (const repair of repairs) {
    group.push(repair);
    if (group.length === ROWS_IN_GROUP) write();
  }
  write();
  writer.finish();
}
