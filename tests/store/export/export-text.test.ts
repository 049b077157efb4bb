import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { ExportColumn } from '../../../src/store/export/export-columns.ts';
import { csvPieces, jsonPieces } from '../../../src/store/export/export-text.ts';
import type { FoundRepair } from '../../../src/store/index/find.ts';
import { nasty, steers } from '../../core/nasty-text.ts';

const REPAIR = {} as FoundRepair;
const columnWith = (value: string): readonly ExportColumn[] => [
  { name: 'vehicle', type: 'text', value: () => value },
];
const steering = (text: string): readonly string[] => [...text].filter(steers);

describe('a table of records from before control characters were refused', () => {
  test('has a row for the head and one for each repair, and steers no terminal', () => {
    fc.assert(
      fc.property(nasty, (vehicle) => {
        const csv = [...csvPieces([REPAIR], columnWith(vehicle))].join('');
        expect(csv.split('\r\n')).toHaveLength(3);
        expect(steering(csv.replaceAll('\r\n', ''))).toEqual([]);
      }),
      { seed: 1 },
    );
  });

  test('as JSON Lines reads back as it was kept', () => {
    fc.assert(
      fc.property(nasty, (vehicle) => {
        const lines = [...jsonPieces([REPAIR], columnWith(vehicle))].join('');
        expect(steering(lines)).toEqual(['\n']);
        expect(JSON.parse(lines)).toEqual({ vehicle });
      }),
      { seed: 1 },
    );
  });
});
