import { join } from 'node:path';
import { asyncBufferFromFile, parquetMetadataAsync, parquetReadObjects } from 'hyparquet';
import { expect, test } from 'vitest';
import { exportColumns } from '../../../src/store/export/export-columns.ts';
import { writeParquet } from '../../../src/store/export/export-parquet.ts';
import { addRepair, opened, recordsFolder } from '../records-folder.ts';

const COLUMNS = exportColumns(true);

test('a Parquet table reads back as what was found, by another reader', async () => {
  const folder = recordsFolder();
  const store = opened(folder);
  addRepair(folder, store, 'a', {}, { technician: 'Demo Ñ²' });
  addRepair(folder, store, 'b', { dose: null, alarms: 3 });
  const path = join(folder, 'table.parquet');
  writeParquet(path, store.each({}), COLUMNS);
  const rows = await parquetReadObjects({ file: await asyncBufferFromFile(path) });
  expect(rows).toEqual(
    store
      .find({})
      .map((found) => Object.fromEntries(COLUMNS.map(({ name, value }) => [name, value(found)]))),
  );
});

test('many rows become several row groups, and none becomes a table without rows', async () => {
  const folder = recordsFolder();
  const store = opened(folder);
  addRepair(folder, store, 'a');
  const [row] = store.find({});
  const many = Array.from({ length: 2001 }, () => row).filter((one) => one !== undefined);
  const path = join(folder, 'table.parquet');
  writeParquet(path, many, COLUMNS);
  const metadata = await parquetMetadataAsync(await asyncBufferFromFile(path));
  expect(metadata.row_groups.map(({ num_rows: rows }) => Number(rows))).toEqual([2000, 1]);
  writeParquet(path, [], COLUMNS);
  expect(await parquetReadObjects({ file: await asyncBufferFromFile(path) })).toEqual([]);
});
