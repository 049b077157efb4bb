/**
 * Lists every field of a settings file as a row with its unit, whatever fields the file has. The
 * unit is read from the end of the field's name, as this project's files spell it. Nothing is left
 * out and nothing is converted: the reader sees the given numbers to six digits; the journal holds
 * them in full.
 */

import type { PaperWords } from '../paper-words.ts';

export interface InputRow {
  /** Dotted path, as an error message would name it. */
  readonly path: string;
  readonly label: string;
  readonly value: string;
  readonly unit: string;
}

/** Endings of field names; where one ends with another, the longer comes first. */
const UNITS: readonly (readonly [ending: string, unit: string])[] = [
  ['MPaSAt20C', 'mPa·s at 20 °C'],
  ['PaSAt20C', 'Pa·s at 20 °C'],
  ['PaM3PerS', 'Pa·m³/s'],
  ['MJPerCm2', 'mJ/cm²'],
  ['MWPerCm2', 'mW/cm²'],
  ['KPaGauge', 'kPa gauge'],
  ['KPaAbs', 'kPa abs'],
  ['KPa', 'kPa'],
  ['PercentOfSpanPerYear', '% of span per year'],
  ['PercentOfReadingPerYear', '% of reading per year'],
  ['PercentOfSpanPerK', '% of span per K'],
  ['PercentOfSpan', '% of span'],
  ['PercentOfReading', '% of reading'],
  ['PercentPerNm', '%/nm'],
  ['Percent', '%'],
  ['KPerMin', 'K/min'],
  ['Counts', 'counts'],
  ['Years', 'years'],
  ['Days', 'days'],
  ['MWPerK', 'mW/K'],
  ['Ohm', 'Ω'],
  ['Mm', 'mm'],
  ['Nm', 'nm'],
  ['Ml', 'mL'],
  ['Kg', 'kg'],
  ['Pa', 'Pa'],
  ['C', '°C'],
  ['K', 'K'],
  ['M', 'm'],
  ['S', 's'],
  ['V', 'V'],
  ['A', 'A'],
];

/** `absent`: the text for a field without a value. */
export function inputRowsOf(
  file: unknown,
  words: PaperWords,
  absent = words.report.said.notKnown,
  path = '',
): readonly InputRow[] {
  const { said, inputs } = words.report;
  const row = (value: string): readonly InputRow[] => [rowOf(path, file, value, words)];
  if (Array.isArray(file)) {
    const isPlain = file.every((item) => typeof item !== 'object' || item === null);
    if (isPlain) {
      const values = file.map((item) => valueText(item, words)).join(', ');
      return row(file.length === 0 ? said.none : values);
    }
    return file.flatMap((item, index) => inputRowsOf(item, words, absent, `${path}.${index}`));
  }
  if (typeof file === 'object' && file !== null) {
    const fields = Object.entries(file);
    if (fields.length === 0) return path === '' ? [] : row(inputs.asProgram);
    return fields.flatMap(([key, value]) =>
      inputRowsOf(value, words, absent, path === '' ? key : `${path}.${key}`),
    );
  }
  return row(file === null ? absent : valueText(file, words));
}

/** Only a number gets a unit; the text for a missing value does not. */
function rowOf(path: string, given: unknown, value: string, words: PaperWords): InputRow {
  const name = path.split('.').at(-1) ?? path;
  const [ending, unit] = UNITS.find(([end]) => endsWithUnit(name, end)) ?? ['', ''];
  const bare = ending === '' ? path : path.slice(0, -ending.length);
  const counted = [given].flat().some((one) => typeof one === 'number');
  const one = given === 1 ? (SINGULARS[unit] ?? unit) : unit;
  const units: Readonly<Record<string, string>> = words.report.inputs.units;
  return { path, label: labelOf(bare), value, unit: counted ? (units[one] ?? one) : '' };
}

const SINGULARS: Readonly<Record<string, string>> = { years: 'year', days: 'day', counts: 'count' };

/**
 * More digits than any input has. Without this limit a calculated figure would print all of a
 * float's.
 */
const MOST_DIGITS = 6;

function valueText(value: unknown, { report, tongue }: PaperWords): string {
  if (value === '') return report.said.nothing;
  if (typeof value !== 'number' || Number.isInteger(value)) return String(value);
  return tongue.figure(String(Number(value.toPrecision(MOST_DIGITS))));
}

/** A unit follows a lower-case letter or a digit: 'dwellS' but not 'USB'. */
const endsWithUnit = (name: string, ending: string): boolean =>
  name.endsWith(ending) && /[a-z0-9]$/.test(name.slice(0, -ending.length));

/** 'vacuum.setPoint' to 'vacuum: set point'. */
const labelOf = (path: string): string =>
  path
    .replaceAll('.', ': ')
    .replaceAll(/([a-z0-9])([A-Z])/g, '$1 $2')
    .toLowerCase();
