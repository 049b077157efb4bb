import { expect, test } from 'vitest';
import { CHECKLIST } from '../../wiring/checklist/checklist.ts';
import { checklistPage } from '../../wiring/checklist/checklist-page.ts';
import { PARTS } from '../../wiring/parts/circuit.ts';
import { PART_TYPES, type PartTypeName } from '../../wiring/parts/part-types.ts';
import { devicesOf, partsPage } from '../../wiring/parts/parts-page.ts';
import { AIR_PARTS } from '../../wiring/parts/pneumatics.ts';

const kinds = Object.keys(PART_TYPES) as PartTypeName[];

test('every kind of part is used, and every device is listed once', () => {
  const listed = kinds.flatMap((kind) => {
    expect(devicesOf(kind).length, kind).toBeGreaterThan(0);
    return devicesOf(kind);
  });
  const all = new Set(
    Object.keys({ ...PARTS, ...AIR_PARTS }).map((part) => part.replace(/[a-z]$/, '')),
  );
  expect([...listed].sort()).toEqual([...all].sort());
});

test('two contacts of one button are one part to buy', () => {
  expect(devicesOf('emergencyStop')).toEqual(['S1']);
  expect(devicesOf('shield')).toEqual(['S3']);
});

test('every row has all its columns', () => {
  const rows = partsPage()
    .split('\n')
    .filter((line) => line.startsWith('|'));
  expect(rows).toHaveLength(kinds.length + 2);
  for (const row of rows) expect(row.split('|'), row).toHaveLength(9);
});

test('the paper checklist has every step with its caution, question and remedy', () => {
  const page = checklistPage(CHECKLIST);
  for (const { title, caution, todo, question, onFailure } of CHECKLIST) {
    for (const words of [title, caution, todo, question, onFailure]) {
      if (words !== null) expect(page).toContain(words);
    }
  }
});
