import { expect, test } from 'vitest';
import { abortsOn, isSilentOn } from '../../../src/store/index/sqlite.ts';

test('the SQLite module is left alone on the versions of Node that it would end in the middle of a job', () => {
  expect(['24.19.0', '24.21.0'].filter(abortsOn)).toEqual(['24.19.0', '24.21.0']);
  expect(['20.11.0', '20.20.2', '22.23.3', '26.10.0'].filter(abortsOn)).toEqual([]);
});

test('the SQLite that Node brings is used only where it prints no warning', () => {
  const versions = ['24.15.0', '24.21.0', '25.7.0', '26.0.0', '26.10.0', '30.1.0'];
  expect(versions.filter(isSilentOn)).toEqual(versions);
  const loud = ['20.11.0', '22.4.0', '22.23.3', '23.11.0', '24.0.0', '24.14.9', '25.6.1'];
  expect(loud.filter(isSilentOn)).toEqual([]);
});
