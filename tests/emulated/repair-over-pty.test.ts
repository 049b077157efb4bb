/**
 * One whole repair through serialport, the pseudo-terminal and the real firmware, beside the same
 * repair on the simulated board. The board's time waits for the host and the host's clock is slow,
 * so that a busy machine makes the run longer and not different. The panel is read off the display
 * that the firmware has drawn, by the scripted person.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Board } from '../../hal/board.ts';
import { type HostClock, REAL_CLOCK } from '../../hal/firmata/clock.ts';
import { createSimulatedBoard } from '../../sim/simulated-board.ts';
import type { Bench } from '../../src/cli/bench.ts';
import builtInProfile from '../../src/cli/defaults/profile.json' with { type: 'json' };
import { loadSettings } from '../../src/cli/load-settings.ts';
import { createPacer } from '../../src/cli/pace.ts';
import { writeReport } from '../../src/cli/report-command.ts';
import { runJob } from '../../src/cli/run-job.ts';
import type { DisplayLines } from '../../src/frame.ts';
import { createHeader } from '../../src/records/journal-format.ts';
import { scenarioFor } from '../bench.ts';
import { scratchFolder, writeJson } from '../cli/process.ts';
import { type RunningEmulator, startEmulator } from '../sim/emulator/emulator-launcher.ts';
import { openOverPty, whyNoPty } from './pty-board.ts';

const skip = whyNoPty();
if (skip !== null) console.warn(`whole repair over the pseudo-terminal ${skip}`);

/** So much slower than the wall's. */
const SLOW = 20;
const SLOW_CLOCK: HostClock = {
  nowS: () => REAL_CLOCK.nowS() / SLOW,
  every: (periodS, run) => REAL_CLOCK.every(periodS, run),
  sleep: (seconds) => REAL_CLOCK.sleep(seconds),
};

/** Every step of a repair, with short waits. */
const SHORT = {
  ...builtInProfile,
  name: 'short demo for the emulated board',
  vacuum: { ...builtInProfile.vacuum, dwellS: 20, longestDwellS: 50 },
  pressure: { ...builtInProfile.pressure, dwellS: 60, restS: 10 },
  cure: { ...builtInProfile.cure, targetMJPerCm2: 1500, leastS: 60 },
};

interface Outcome {
  readonly reason: string;
  readonly report: { readonly [field: string]: unknown };
}

async function runOn(board: Board, run: Bench['run'], folder: string, name: string) {
  const settings = loadSettings({ profile: writeJson(folder, 'short.json', SHORT) });
  if (!settings.ok) throw new Error(JSON.stringify(settings.problems));
  const journalPath = join(folder, `${name}.jsonl`);
  const bench: Bench = {
    board,
    title: name,
    keysLine: '',
    keyboard: null,
    atmospherePa: 100_600,
    seed: 1,
    startedAt: '2000-01-01T08:00:00.000Z',
    extra: {},
    run,
    act: () => undefined,
    look: () => null,
  };
  const written: string[] = [];
  const out = { isTTY: false, write: (words: string) => written.push(words) };
  const { inputs } = settings.value;
  const end = await runJob({
    settings: settings.value,
    bench,
    journalPath,
    header: createHeader({
      version: '0.0.0',
      board: board.identity,
      seed: 1,
      startedAt: bench.startedAt,
      inputs: { ...inputs, extra: {} },
    }),
    surroundings: { title: name, lowestPa: 15_000, highestPa: 270_000, keys: '' },
    out: out as unknown as NodeJS.WriteStream,
    err: out as unknown as NodeJS.WriteStream,
  });
  expect(writeReport(journalPath).ok).toBe(true);
  const report = JSON.parse(readFileSync(join(folder, 'report.json'), 'utf8'));
  return { reason: end.reason, report, said: written.join('') } satisfies Outcome & {
    said: string;
  };
}

/** Every screen that the firmware drew, as the emulator reported it once a second of board time. */
const screensOf = (emulator: RunningEmulator): readonly DisplayLines[] =>
  emulator.said
    .filter(({ kind }) => kind === 'state')
    .map((state) => state['display'] as DisplayLines);

describe.skipIf(skip !== null)('a whole repair over the pseudo-terminal', () => {
  test('ends with the verdict of the simulated board, its dose within 3 %, its panel drawn', async () => {
    const [realFolder, simulatedFolder] = [scratchFolder(), scratchFolder()];
    const emulator = await startEmulator({
      scenario: scenarioFor({}),
      pace: { lockStepPatienceMs: 30_000 },
    });
    const board = await openOverPty(emulator.link, 0.05, SLOW_CLOCK);
    const real = await runOn(board, untilComplete, realFolder, 'emulated');
    const truth = await emulator.stop();
    const simulatedBoard = createSimulatedBoard(scenarioFor({}));
    const simulated = await runOn(
      simulatedBoard,
      () => createPacer(simulatedBoard.tick, simulatedBoard.identity.tickS, 'max'),
      simulatedFolder,
      'simulated',
    );
    console.info(JSON.stringify({ real, truth, simulated }, null, 1).slice(0, 20000));
    expect(real.reason).toBe('completed');
    expect(screensOf(emulator).length).toBeGreaterThan(100);
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
