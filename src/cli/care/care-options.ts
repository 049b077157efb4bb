/**
 * Options common to all care commands: the records, the unit, and the day. Days are UTC. The
 * simulated unit lives on its simulated day unless another is named; a real one uses the clock.
 */
import { type Command, InvalidArgumentError, Option } from 'commander';
import { type CareRead, dayOfTime, readCare } from '../../app/prepare/care-records-read.ts';
import { loadCareSettings } from '../../app/prepare/load-care.ts';
import { type LoadedSettings, loadSettings } from '../../app/prepare/load-settings.ts';
import type { CareSettings } from '../../care/care-settings.ts';
import type { Checked } from '../../core/settings.ts';
import { SIMULATED_START } from '../run/model-session.ts';

export interface CareOptions {
  readonly records: string;
  readonly unit?: string;
  readonly care?: string;
  readonly real: boolean;
  readonly today?: string;
}

export const withCareOptions = (command: Command): Command =>
  command
    .option('--records <folder>', 'folder of the records', 'records')
    .option('--unit <file>', 'settings of the unit (JSON)')
    .option('--care <file>', 'care intervals and limits (JSON)')
    .option('--real', 'the unit on its real board, not the simulated one', false)
    .addOption(
      new Option('--today <date>', 'the day for which the simulated unit is shown')
        .argParser(parseDay)
        .conflicts('real'),
    );

export function parseDay(words: string): string {
  const time = /^\d{4}-\d{2}-\d{2}$/.test(words) ? Date.parse(words) : Number.NaN;
  // A parser may turn 30 February into March.
  if (!Number.isNaN(time) && dayOfTime(new Date(time).toISOString()) === words) return words;
  throw new InvalidArgumentError('accepted: a date as YYYY-MM-DD.');
}

/** The time of a command about this unit, ISO 8601. */
export function timeOf({ real, today }: CareOptions): string {
  if (real) return new Date().toISOString();
  return today === undefined ? SIMULATED_START : `${today}${SIMULATED_START.slice(10)}`;
}

export interface LoadedCare extends CareRead {
  readonly settings: LoadedSettings;
  readonly care: CareSettings;
  readonly simulated: boolean;
  readonly unit: string;
  /** ISO 8601. */
  readonly at: string;
}

export function loadCare(options: CareOptions): Checked<LoadedCare> {
  const loaded = loadSettings({ unit: options.unit });
  const care = loadCareSettings(options.care);
  if (!loaded.ok || !care.ok) {
    return { ok: false, problems: [loaded, care].flatMap((r) => (r.ok ? [] : r.problems)) };
  }
  const at = timeOf(options);
  const simulated = !options.real;
  const { unit } = loaded.value.config;
  const read = readCare(options.records, { unit, simulated, today: dayOfTime(at) });
  const value = { ...read, settings: loaded.value, care: care.value, simulated, unit: unit.name };
  return { ok: true, value: { ...value, at } };
}
