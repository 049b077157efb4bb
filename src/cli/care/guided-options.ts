/**
 * Options shared by the guided procedures, and the conversion of the reference's trade units on the
 * command line into the figures of its record.
 */
import { type Command, InvalidArgumentError } from 'commander';
import { REFERENCE_NM, type ReferenceInstrument } from '../../care/care-entry.ts';
import { QUANTITIES } from '../../procedure/guided/quantities.ts';
import { type BoardOptions, withBoardOptions } from '../run/board-options.ts';
import { collectFault } from '../run/simulated-scenario.ts';
import { parseAltitude, parseSeed, parseSpeed } from '../terminal/parse-option.ts';

export const CALIBRATIONS = ['pressure', 'uv', 'temperature'] as const;
export type CalibrationName = (typeof CALIBRATIONS)[number];

export interface GuidedOptions extends BoardOptions {
  readonly by: string;
  readonly manual: boolean;
  readonly speed?: number | 'max';
  readonly seed: number;
  readonly altitude: number;
  readonly fault: readonly string[];
  readonly unit?: string;
  readonly care?: string;
  readonly guided?: string;
  readonly language?: string;
  readonly words?: string;
  readonly records: string;
  readonly json: boolean;
}

export interface ReferenceOptions {
  readonly referenceName: string;
  readonly certificate: string;
  readonly referenceUncertainty: number;
  readonly coverageFactor: number;
  readonly resolution: number;
  /** For uv alone. */
  readonly atNm?: number;
  readonly values: readonly number[];
}

export function withGuidedOptions(command: Command): Command {
  return withBoardOptions(command, ['manual', 'speed', 'seed', 'altitude', 'fault'])
    .requiredOption(
      '--by <name>',
      'person in charge; kept separately as personal data',
      someText(80),
    )
    .option('--manual', 'you press the buttons and enter the numbers', false)
    .option(
      '--speed <times>',
      'times real time, or max (manual: 1, else 16; emulated: max)',
      parseSpeed,
    )
    .option('--seed <n>', 'seed of the simulated bench, person and reference', parseSeed, 1)
    .option('--altitude <m>', 'altitude of the simulated bench', parseAltitude, 60)
    .option('--fault <name>', 'simulate a fault: a name, or a file', collectFault, [])
    .option('--unit <file>', 'settings of the unit (JSON)')
    .option('--care <file>', "intervals and limits of the unit's care (JSON)")
    .option('--guided <file>', 'figures of the guided procedures (JSON)')
    .option('--language <name or folder>', 'of the display: en, es, or a folder')
    .option('--words <file>', 'words of the guided procedures in another language (JSON)')
    .option('--records <folder>', 'folder of the records', 'records')
    .option('--json', 'the result as JSON', false);
}

export function withReferenceOptions(command: Command): Command {
  const amount = (words: string): number => positive(words, 1000);
  return command
    .requiredOption('--reference-name <text>', 'name of the reference instrument', someText(80))
    .requiredOption('--certificate <text>', 'number of its certificate', someText(80))
    .requiredOption(
      '--reference-uncertainty <n>',
      'expanded, as certified: kPa for pressure, % of reading for uv, K for temperature',
      amount,
    )
    .option('--coverage-factor <k>', 'of that uncertainty', (words) => positive(words, 5), 2)
    .option('--resolution <n>', 'last digit of the reference: kPa, mW/cm2 or K', amount, 0.01)
    .option(
      '--at-nm <nm>',
      'uv: wavelength that the radiometer is certified for, as its certificate says',
      (words) => positive(words, 1000),
    )
    .option('--values <list>', 'what the reference shows, in order: 100.61,40.02,...', numbers, []);
}

/** In the units of the channel for which it is the reference. */
export function referenceOf(what: CalibrationName, options: ReferenceOptions): ReferenceInstrument {
  const { referenceName: name, certificate, coverageFactor } = options;
  const perUnit = { pressure: 1000, uv: 0.01, temperature: 1 }[what];
  const perDigit = { pressure: 1000, uv: 10, temperature: 1 }[what];
  return {
    name,
    certificate,
    coverageFactor,
    expandedUncertainty: options.referenceUncertainty * perUnit,
    resolution: options.resolution * perDigit,
    ...(what === 'uv' && options.atNm !== undefined && { atNm: options.atNm }),
  };
}

/** A radiometer reads right for one light only, so that its wavelength is part of the reference. */
export function wavelengthProblem(
  what: CalibrationName,
  { atNm }: Pick<ReferenceOptions, 'atNm'>,
): string | null {
  if (what !== 'uv') {
    return atNm === undefined ? null : `--at-nm belongs to uv, not to ${what}`;
  }
  const { least, most } = REFERENCE_NM;
  if (atNm !== undefined && atNm >= least && atNm <= most) return null;
  const stated = atNm === undefined ? 'is not stated' : `${atNm} is not accepted`;
  return `--at-nm ${stated}; accepted: the wavelength that the radiometer's certificate is for, from ${least} to ${most} nm`;
}

/** Null where such a reference can show this number, otherwise what is accepted. */
export function unfitValue(what: CalibrationName, value: number): string | null {
  const { lowest, highest, unit } = QUANTITIES[QUANTITY_OF[what]];
  if (value >= lowest && value <= highest) return null;
  return `${value} is not accepted; accepted: from ${lowest} to ${highest} ${unit}`;
}

export const QUANTITY_OF = {
  pressure: 'pressure',
  uv: 'light',
  temperature: 'temperature',
} as const;

const someText =
  (longest: number) =>
  (words: string): string => {
    const trimmed = words.trim();
    if (trimmed !== '' && trimmed.length <= longest) return trimmed;
    throw new InvalidArgumentError(`accepted: a text of 1 to ${longest} characters.`);
  };

function positive(words: string, most: number): number {
  const value = Number(words);
  if (words.trim() !== '' && value > 0 && value <= most) return value;
  throw new InvalidArgumentError(`accepted: a number above 0, up to ${most}.`);
}

function numbers(words: string): readonly number[] {
  const values = words.split(',').map((part) => (part.trim() === '' ? Number.NaN : Number(part)));
  if (values.every(Number.isFinite) && values.length <= 20) return values;
  throw new InvalidArgumentError('accepted: up to 20 numbers, separated by commas.');
}
