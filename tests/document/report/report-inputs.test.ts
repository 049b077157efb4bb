import { describe, expect, test } from 'vitest';
import { ENGLISH_PAPERS } from '../../../src/document/paper-words.ts';
import { inputRowsOf } from '../../../src/document/report/inputs.ts';

const rowsOf = (file: unknown, absent?: string) => inputRowsOf(file, ENGLISH_PAPERS, absent);

describe('the rows of a settings file', () => {
  test('carry the unit that the name of the field ends in', () => {
    const rows = rowsOf({
      vacuum: { setPointKPaAbs: 25, dwellS: 60 },
      resin: { viscosityMPaSAt20C: 50, lot: 'demo' },
      cure: { targetAtResinMJPerCm2: 6000 },
      lamp: { peakNm: 365, sensorSlopePercentPerNm: 0.6 },
      glassC: 23,
      lowestC: 1,
    });
    expect(rows.map(({ label, value, unit }) => `${label} ${value} ${unit}`.trim())).toEqual([
      'vacuum: set point 25 kPa abs',
      'vacuum: dwell 60 s',
      'resin: viscosity 50 mPa·s at 20 °C',
      'resin: lot demo',
      'cure: target at resin 6000 mJ/cm²',
      'lamp: peak 365 nm',
      'lamp: sensor slope 0.6 %/nm',
      'glass 23 °C',
      'lowest 1 °C',
    ]);
  });

  test('carry no unit where there is no number', () => {
    const sheet = { otherDamageMm: null, bodyMm: 'unknown', ageDays: 1, calibratedEveryYears: 1 };
    const told = (absent?: string) =>
      rowsOf(sheet, absent).map(({ value, unit }) => `${value} ${unit}`.trim());
    expect(told('none')).toEqual(['none', 'unknown', '1 day', '1 year']);
    expect(told()[0]).toBe('not known');
  });

  test('write a reckoned number to six digits, and a rate by the minute as one', () => {
    const rows = rowsOf({ slopePercent: 3.982950809885007, greatestRateKPerMin: 20 });
    expect(rows.map(({ label, value, unit }) => `${label} ${value} ${unit}`)).toEqual([
      'slope 3.98295 %',
      'greatest rate 20 K/min',
    ]);
  });

  test('leave nothing out', () => {
    const rows = rowsOf({ a: null, b: [], c: ['x', 'y'], d: [{ e: false }], f: {}, g: '' });
    expect(rows.map(({ path, value }) => [path, value])).toEqual([
      ['a', 'not known'],
      ['b', 'none'],
      ['c', 'x, y'],
      ['d.0.e', 'false'],
      ['f', 'as the program has it'],
      ['g', 'nothing'],
    ]);
  });
});
