/**
 * `meniscus run`: from options to a job. Checks everything before anything starts, names the record
 * so that none is ever overwritten, runs the job, writes the report, and says how it went.
 */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Outcome } from '../events.ts';
import { createHeader } from '../records/journal-format.ts';
import { END_WORDS } from '../records/report-words.ts';
import { problemLine, type SettingsProblem } from '../settings.ts';
import type { Bench, OpenedBench } from './bench.ts';
import { EXIT } from './exit-codes.ts';
import { type LoadedSettings, loadSettings } from './load-settings.ts';
import { refuse } from './refuse.ts';
import { writeReport } from './report-command.ts';
import { type JobEnd, runJob } from './run-job.ts';
import { type SimulatedOptions, simulatedBench } from './simulated-bench.ts';
import { VERSION } from './version.ts';

export interface RunOptions extends SimulatedOptions {
  /** A serial port, or `auto`; the simulated board where none is named. */
  readonly port?: string;
  readonly job?: string;
  readonly profile?: string;
  readonly unit?: string;
  readonly records: string;
}

export async function runCommand(options: RunOptions): Promise<number> {
  const loaded = loadSettings(options);
  if (!loaded.ok) return refuse(loaded.problems.map(problemLine));
  if (options.manual && !process.stdin.isTTY) {
    process.stderr.write('--manual needs a terminal to press keys in.\n');
    return EXIT.badInput;
  }
  const { config } = loaded.value;
  const opened: OpenedBench =
    options.port === undefined
      ? simulatedBench(options, config)
      : await (await import('./real-bench.ts')).realBench(options.port, config);
  if (!opened.ok) return refuse(opened.lines);
  const { bench } = opened;
  const folder = newFolder(options.records, config.job.reference);
  if (typeof folder === 'string') return await run(loaded.value, bench, folder);
  await bench.board.close();
  return refuse([problemLine(folder)]);
}

async function run(settings: LoadedSettings, bench: Bench, folder: string): Promise<number> {
  const journalPath = join(folder, 'journal.jsonl');
  const { profile } = settings.config;
  const started = performance.now();
  const end = await runJob({
    settings,
    bench,
    journalPath,
    header: createHeader({
      version: VERSION,
      board: bench.board.identity,
      seed: bench.seed,
      startedAt: bench.startedAt,
      inputs: { ...settings.inputs, extra: bench.extra },
    }),
    surroundings: {
      title: bench.title,
      lowestPa: profile.vacuum.lowestPa,
      highestPa: bench.atmospherePa + profile.pressure.highestGaugePa,
      keys: bench.keysLine,
    },
    out: process.stdout,
    err: process.stderr,
  });
  const wallS = (performance.now() - started) / 1000;
  const report = writeReport(journalPath);
  process.stdout.write(closingWords(end, wallS, report.lines));
  return report.ok ? EXIT[end.reason] : EXIT.fault;
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
