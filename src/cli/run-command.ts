/**
 * `meniscus run`: from options to a job. Checks everything before anything starts, names the record
 * so that none is ever overwritten, runs the job, writes the report, and says how it went.
 */
import { existsSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { FAULT_PRESETS, type FaultPreset } from '../../sim/faults.ts';
import { breakGeometryOf, type Scenario } from '../../sim/scenario.ts';
import { createSimulatedBoard } from '../../sim/simulated-board.ts';
import type { JobConfig } from '../controller-state.ts';
import type { EndReason, Outcome } from '../events.ts';
import { createHeader } from '../records/journal-format.ts';
import { problemLine, type SettingsProblem } from '../settings.ts';
import { paFromKPa } from '../units.ts';
import { EXIT } from './exit-codes.ts';
import { KEYS_LINE } from './keys.ts';
import { type LoadedSettings, loadSettings } from './load-settings.ts';
import type { Speed } from './pace.ts';
import { writeReport } from './report-command.ts';
import { type JobEnd, runJob } from './run-job.ts';
import { VERSION } from './version.ts';

export interface RunOptions {
  readonly manual: boolean;
  readonly speed?: Speed;
  readonly job?: string;
  readonly profile?: string;
  readonly unit?: string;
  readonly seed: number;
  readonly fault: readonly string[];
  readonly records: string;
}

export const FAULT_NAMES = Object.keys(FAULT_PRESETS);

/** A whole demo repair takes about a minute at this speed. */
const DEMO_SPEED = 16;
const TICK_S = 0.05;
/** Simulated runs start at a simulated time, so that the same inputs give the same journal. */
const SIMULATED_START = '2000-01-01T08:00:00.000Z';
/** Demo site: a little under sea-level standard. */
const DEMO_ATMOSPHERE_PA = paFromKPa(100.6);

export async function runCommand(options: RunOptions): Promise<number> {
  const loaded = loadSettings(options);
  if (!loaded.ok) return refuse(loaded.problems);
  if (options.manual && !process.stdin.isTTY) {
    process.stderr.write('--manual needs a terminal to press keys in.\n');
    return EXIT.badInput;
  }
  const folder = newFolder(options.records, loaded.value.config.job.reference);
  if (typeof folder !== 'string') return refuse([folder]);
  return await run(options, loaded.value, folder);
}

async function run(options: RunOptions, settings: LoadedSettings, folder: string): Promise<number> {
  const speed = options.speed ?? (options.manual ? 1 : DEMO_SPEED);
  const scenario = scenarioOf(options, settings.config);
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
      inputs: { ...settings.inputs, extra: { faults: options.fault, manual: options.manual } },
    }),
    surroundings: {
      title: titleOf(options, speed),
      lowestPa: config.profile.vacuum.lowestPa,
      highestPa: DEMO_ATMOSPHERE_PA + config.profile.pressure.highestGaugePa,
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

function refuse(problems: readonly SettingsProblem[]): number {
  process.stderr.write(`${problems.map(problemLine).join('\n')}\nNothing was started.\n`);
  return EXIT.badInput;
}

/** Makes a folder that was not there before; a second job of the same name gets a number. */
function newFolder(records: string, reference: string): string | SettingsProblem {
  const name = reference.replaceAll(/[^A-Za-z0-9._-]/g, '-').replace(/^\.+/, '') || 'job';
  let folder = join(records, name);
  for (let again = 2; existsSync(folder); again++) folder = join(records, `${name}.${again}`);
  try {
    mkdirSync(folder, { recursive: true });
    return folder;
  } catch (error) {
    return {
      file: folder,
      path: '',
      value: `not writable (${String(error)})`,
      accepted: 'a folder that can be made',
    };
  }
}

function scenarioOf({ seed, fault, manual }: RunOptions, { job }: JobConfig): Scenario {
  const presets = fault.map((name) => FAULT_PRESETS[name]);
  return {
    seed,
    tickS: TICK_S,
    atmospherePa: DEMO_ATMOSPHERE_PA,
    airK: job.airK,
    glassK: job.glassK,
    break: breakGeometryOf(job.damage),
    resinViscosityPaSAt20C: job.resin.viscosityPaSAt20C,
    faults: presets.flatMap((preset: FaultPreset | undefined) => preset?.faults ?? []),
    technician: manual ? 'person' : 'scripted',
  };
}

function titleOf({ manual, seed, fault }: RunOptions, speed: Speed): string {
  const pace = speed === 'max' ? 'as fast as it can' : `${speed} x real time`;
  const who = manual ? 'you press the buttons' : 'scripted technician';
  const wrong = fault.length === 0 ? '' : `, fault: ${fault.join(', ')}`;
  return `Meniscus on the simulated board (demo), ${who}, seed ${seed}, ${pace}${wrong}`;
}

const ENDED: Readonly<Record<EndReason, string>> = {
  completed: 'Job completed',
  'stopped-by-person': 'Job stopped by a person',
  alarm: 'Job ended by an alarm',
  interrupted: 'Job interrupted',
  fault: 'Job ended by a fault of the program',
};

const OUTCOME: Readonly<Record<Outcome, string>> = {
  clear: 'break clear',
  'mark-remains': 'a mark remains',
};

function closingWords(end: JobEnd, wallS: number, reportLines: readonly string[]): string {
  const times = (end.boardS / wallS).toFixed(0);
  const lines = [
    '',
    `${ENDED[end.reason]}${end.outcome === null ? '' : `, ${OUTCOME[end.outcome]}`}: ${end.why}`,
    ...reportLines,
    `${(end.boardS / 60).toFixed(1)} min of board time in ${wallS.toFixed(1)} s (${times} x real time)`,
  ];
  return `${lines.join('\n')}\n`;
}
