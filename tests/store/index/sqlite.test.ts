import { expect, test } from 'vitest';
import { abortsOn } from '../../../src/store/index/sqlite.ts';

test('the SQLite module is left alone on the versions of Node that it would end in the middle of a job', () => {
  expect(['24.19.0', '24.21.0'].filter(abortsOn)).toEqual(['24.19.0', '24.21.0']);
  expect(['20.11.0', '20.20.2', '22.23.3', '26.10.0'].filter(abortsOn)).toEqual([]);
});
