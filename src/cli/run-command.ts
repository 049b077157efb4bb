/**
 * `meniscus run`: from options to a job. Checks everything before anything starts, names the record
 * so that none is ever overwritten, runs the job, writes the report, and says how it went.
 */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Scenario } from '../../sim/scenario.ts';
import { createSimulatedBoard } from '../../sim/simulated-board.ts';
import type { Outcome } from '../events.ts';
import { createHeader } from '../records/journal-format.ts';
import { END_WORDS } from '../records/report-words.ts';
import { problemLine, type SettingsProblem } from '../settings.ts';
import { EXIT } from './exit-codes.ts';
import { KEYS_LINE } from './keys.ts';
import { type LoadedSettings, loadSettings } from './load-settings.ts';
import type { Speed } from './pace.ts';
import { writeReport } from './report-command.ts';
import { type JobEnd, runJob } from './run-job.ts';
import { type ScenarioOptions, scenarioOf } from './simulated-scenario.ts';
import { VERSION } from './version.ts';

export interface RunOptions extends ScenarioOptions {
  readonly speed?: Speed;
  readonly job?: string;
  readonly profile?: string;
  readonly unit?: string;
  readonly records: string;
}

/** A whole demo repair takes about a minute at this speed. */
const DEMO_SPEED = 16;
/** Simulated runs start at a simulated time, so that the same inputs give the same journal. */
const SIMULATED_START = '2000-01-01T08:00:00.000Z';

export async function runCommand(options: RunOptions): Promise<number> {
  const loaded = loadSettings(options);
  if (!loaded.ok) return refuse(loaded.problems);
  if (options.manual && !process.stdin.isTTY) {
    process.stderr.write('--manual needs a terminal to press keys in.\n');
    return EXIT.badInput;
  }
  const scenario = scenarioOf(options, loaded.value.config);
  if (!scenario.ok) return refuse(scenario.problems);
  const folder = newFolder(options.records, loaded.value.config.job.reference);
  if (typeof folder !== 'string') return refuse([folder]);
  return await run(options, loaded.value, scenario.value, folder);
}

async function run(
  options: RunOptions,
  settings: LoadedSettings,
  scenario: Scenario,
  folder: string,
): Promise<number> {
  const speed = options.speed ?? (options.manual ? 1 : DEMO_SPEED);
  const board = createSimulatedBoard(scenario);
  const journalPath = join(folder, 'journal.jsonl');
  const { config } = settings;
  const started = performance.now();
  const end = await runJob({
    settings,
    board,
    speed,
    journalPath,
    header: createHeader({
      version: VERSION,
      board: board.identity,
      seed: options.seed,
      startedAt: SIMULATED_START,
      inputs: { ...settings.inputs, extra: simulatedFacts(options, scenario) },
    }),
    surroundings: {
      title: titleOf(options, speed),
      lowestPa: config.profile.vacuum.lowestPa,
      highestPa: scenario.atmospherePa + config.profile.pressure.highestGaugePa,
      keys: options.manual ? KEYS_LINE : 'Ctrl-C ends the job safely',
    },
    keyboard: options.manual ? process.stdin : null,
    out: process.stdout,
    err: process.stderr,
  });
  const wallS = (performance.now() - started) / 1000;
  const report = writeReport(journalPath);
  process.stdout.write(closingWords(end, wallS, report.lines));
  return report.ok ? EXIT[end.reason] : EXIT.fault;
}

/** What of the simulated world the other inputs do not say. */
function simulatedFacts({ altitude, manual }: RunOptions, { faults }: Scenario) {
  return { altitudeM: altitude, person: manual ? 'at the keyboard' : 'scripted', faults };
}

function refuse(problems: readonly SettingsProblem[]): number {
  process.stderr.write(`${problems.map(problemLine).join('\n')}\nNothing was started.\n`);
  return EXIT.badInput;
}

/** Makes a folder that was not there before; a second job of the same name gets a number. */
function newFolder(records: string, reference: string): string | SettingsProblem {
  const name = reference.replaceAll(/[^A-Za-z0-9._-]/g, '-').replace(/^\.+/, '') || 'job';
  const accepted = 'a folder that can be made';
  try {
    mkdirSync(records, { recursive: true });
    for (let again = 1; ; again++) {
      const folder = join(records, again === 1 ? name : `${name}.${again}`);
      if (makeFolder(folder)) return folder;
    }
  } catch (error) {
    return { file: records, path: '', value: `not writable (${String(error)})`, accepted };
  }
}

/** False when it is there already, also when another job made it in this moment. */
function makeFolder(folder: string): boolean {
  try {
    mkdirSync(folder);
    return true;
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'EEXIST') return false;
    throw error;
  }
}

function titleOf({ manual, seed, fault }: RunOptions, speed: Speed): string {
  const pace = speed === 'max' ? 'as fast as it can' : `${speed} x real time`;
  const who = manual ? 'you press the buttons' : 'scripted technician';
  const wrong = fault.length === 0 ? '' : `, fault: ${fault.join(', ')}`;
  return `Meniscus on the simulated board (demo), ${who}, seed ${seed}, ${pace}${wrong}`;
}

const OUTCOME: Readonly<Record<Outcome, string>> = {
  clear: 'break clear',
  'mark-remains': 'a mark remains',
};

function closingWords(end: JobEnd, wallS: number, reportLines: readonly string[]): string {
  const times = (end.boardS / wallS).toFixed(0);
  const lines = [
    '',
    `Job ${END_WORDS[end.reason]}${end.outcome === null ? '' : `, ${OUTCOME[end.outcome]}`}: ${end.why}`,
    ...reportLines,
    `${(end.boardS / 60).toFixed(1)} min of board time in ${wallS.toFixed(1)} s (${times} x real time)`,
  ];
  return `${lines.join('\n')}\n`;
}
