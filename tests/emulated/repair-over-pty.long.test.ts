/**
 * One whole repair through serialport, the pseudo-terminal and the real firmware, beside the same
 * repair on the simulated board. The board's time waits for the host and the host's clock is slow,
 * so that a busy machine makes the run longer and not different. The panel is read off the display
 * that the firmware has drawn, by the scripted person.
 */
import { mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { SchedulerLike } from 'rxjs';
import { describe, expect, test } from 'vitest';
import type { Board } from '../../hal/board.ts';
import { REAL_TIME } from '../../hal/firmata/clock.ts';
import { createSimulatedBoard } from '../../sim/board/simulated-board.ts';
import { worldOf } from '../../sim/plant/world.ts';
import builtInProfile from '../../src/app/defaults/profile.json' with { type: 'json' };
import { writeReport } from '../../src/app/papers/write-report.ts';
import type { JobFacts } from '../../src/app/prepare/job-facts.ts';
import { loadSettings } from '../../src/app/prepare/load-settings.ts';
import { beginRecord } from '../../src/cli/run/begin-record.ts';
import { createPacer } from '../../src/cli/run/pace.ts';
import { runJob } from '../../src/cli/run/run-job.ts';
import type { Session } from '../../src/cli/run/session.ts';
import { DISPLAY_COLUMNS, type DisplayLines } from '../../src/core/frame.ts';
import type { DoseResult } from '../../src/report/claimed-dose.ts';
import type { Verdict } from '../../src/report/verdict.ts';
import { scenarioFor } from '../bench.ts';
import { scratchFolder, writeJson } from '../cli/process.ts';
import { type RunningEmulator, startEmulator } from '../sim/emulator/emulator-launcher.ts';
import { openOverPty, whyNoPty } from './pty-board.ts';

const skip = whyNoPty();
if (skip !== null) console.warn(`whole repair over the pseudo-terminal ${skip}`);

/** So much slower than the wall's. */
const SLOW = 20;
const SLOW_TIME: SchedulerLike = {
  now: () => REAL_TIME.now() / SLOW,
  schedule: REAL_TIME.schedule,
};

/** Every step of a repair, with short waits. */
const SHORT = {
  ...builtInProfile,
  name: 'short demo for the emulated board',
  cycles: { planned: 1, extra: 3 },
  vacuum: { ...builtInProfile.vacuum, dwellS: 20, longestDwellS: 50 },
  pressure: { ...builtInProfile.pressure, dwellS: 40, restS: 10 },
  cure: { ...builtInProfile.cure, targetAtResinMJPerCm2: 1000, leastS: 40 },
};

/** One cycle fills it. */
const OPEN_BREAK = worldOf(
  { type: 'bullseye', diameterM: 0.01, pitM: 0.002, legs: 0, longestLegM: 0 },
  0.05,
);

interface Outcome {
  readonly reason: string;
  readonly report: {
    readonly verdict: Verdict;
    readonly outcome: string | null;
    readonly dose: DoseResult;
  };
}

const verdictOf = ({ report }: Outcome) => ({
  process: report.verdict,
  outcome: report.outcome,
  dose: report.dose.verdict,
});
const doseOf = ({ report }: Outcome): number => report.dose.doseJPerM2;

/** Nothing was settled before this job. */
const ABOUT: JobFacts = {
  day: '2000-01-01',
  intake: null,
  resin: null,
  pitResin: null,
  calibrations: [],
  care: [],
  agreement: null,
  overrides: [],
};

/** Nobody looks at this terminal. */
const OUT = { isTTY: false, write: () => true };

async function runOn(board: Board, run: Session['run'], folder: string, name: string) {
  const settings = loadSettings({ profile: writeJson(folder, 'short.json', SHORT) });
  if (!settings.ok) throw new Error(JSON.stringify(settings.problems));
  const jobFolder = join(folder, name);
  mkdirSync(jobFolder);
  const session: Session = {
    board,
    title: () => name,
    keys: 'none',
    keyboard: null,
    atmospherePa: 100_600,
    seed: 1,
    startedAt: '2000-01-01T08:00:00.000Z',
    extra: {},
    run,
    act: () => undefined,
    look: () => null,
  };
  const begun = beginRecord(
    { records: folder, id: name },
    { settings: settings.value, session, about: ABOUT },
  );
  if (!begun.ok) throw new Error(JSON.stringify(begun.problems));
  const end = await runJob({
    settings: settings.value,
    session,
    record: begun.value,
    surroundings: { title: name, lowestPa: 15_000, highestPa: 270_000, keys: '' },
    out: OUT as unknown as NodeJS.WriteStream,
    err: OUT as unknown as NodeJS.WriteStream,
  });
  expect(end.recorded).toBe(true);
  expect((await writeReport(join(jobFolder, 'journal.jsonl'))).ok).toBe(true);
  const report = JSON.parse(readFileSync(join(jobFolder, 'report.json'), 'utf8'));
  return { reason: end.reason, report } satisfies Outcome;
}

/** Every screen that the firmware drew, as the emulator reported it once a second of board time. */
const screensOf = (emulator: RunningEmulator): readonly DisplayLines[] =>
  emulator.said
    .filter(({ kind }) => kind === 'state')
    .map((state) => state['display'] as DisplayLines);

describe.skipIf(skip !== null)('a whole repair over the pseudo-terminal', () => {
  test('ends with the verdict of the simulated board, its dose within 3 %, its panel drawn', async () => {
    const [realFolder, simulatedFolder] = [scratchFolder(), scratchFolder()];
    const scenario = scenarioFor({ scenario: { world: OPEN_BREAK } });
    const emulator = await startEmulator({
      scenario,
      pace: { lockStepPatienceMs: 30_000 },
    });
    const board = await openOverPty(emulator.link, 0.05, SLOW_TIME);
    const real = await runOn(board, untilComplete, realFolder, 'emulated');
    const truth = await emulator.stop();
    const simulatedBoard = createSimulatedBoard(scenario);
    const simulated = await runOn(
      simulatedBoard,
      () => createPacer(simulatedBoard.tick, simulatedBoard.identity.tickS, 'max'),
      simulatedFolder,
      'simulated',
    );
    expect(real.reason).toBe('completed');
    expect(verdictOf(real)).toEqual(verdictOf(simulated));
    const trueDose = truth['doseJPerM2'] as number;
    expect(Math.abs(doseOf(real) - trueDose) / trueDose).toBeLessThan(0.03);
    expect(Math.abs(doseOf(real) - doseOf(simulated)) / doseOf(simulated)).toBeLessThan(0.03);
    // Short steps may fall between two looks; the long ones must have been drawn.
    const drawn = screensOf(emulator).map(([first]) => first.trimEnd());
    for (const title of [
      '3.3 Clean the pit',
      '5.2 Vacuum holds',
      '5.6 Pressure holds',
      '6.5 Curing',
    ]) {
      expect(drawn).toContain(title);
    }
    for (const screen of screensOf(emulator)) {
      for (const line of screen) expect(line).toHaveLength(DISPLAY_COLUMNS);
    }
    console.info(
      `whole repair over the pseudo-terminal: ${(truth['timeS'] as number).toFixed(0)} s of board time, dose ${doseOf(real).toFixed(0)} J/m2 logged, ${trueDose.toFixed(0)} true, ${doseOf(simulated).toFixed(0)} simulated`,
    );
  }, 600_000);
});

/** A board's own time passes by itself. */
function untilComplete() {
  let stop = (): void => undefined;
  const done = new Promise<void>((resolve) => {
    stop = resolve;
  });
  return { stop: () => stop(), done };
}
