/**
 * The session of a run on the emulated board: the real firmware image on an emulated chip, its pins
 * wired to the simulated plant, and the real host driver on a line in the same process. Loaded only
 * on request.
 */
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { setImmediate as nextTurn, setTimeout as passed } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import type { Board } from '../../../hal/board.ts';
import { openFirmataBoard } from '../../../hal/firmata/firmata-board.ts';
import imageFacts from '../../../hal/firmware/image/image.json' with { type: 'json' };
import { during } from '../../../sim/emulator/during.ts';
import { createEmulatedBench, type EmulatedBench } from '../../../sim/emulator/emulated-bench.ts';
import { loadImage } from '../../../sim/emulator/image.ts';
import { createInProcessLine } from '../../../sim/emulator/in-process-line.ts';
import { createVirtualClock, type VirtualClock } from '../../../sim/emulator/virtual-clock.ts';
import type { Scenario } from '../../../sim/faults/scenario.ts';
import { boardLimitsOf } from '../../control/board-limits.ts';
import { problemLine } from '../../core/settings.ts';
import type { RepairConfig } from '../../procedure/repair/repair-state.ts';
import { printError } from '../terminal/print.ts';
import { EMULATED_FAULT_NAMES, isEmulated } from './emulated-faults.ts';
import { type Crew, type ModelOptions, modelSession } from './model-session.ts';
import type { Pacer, Speed } from './pace.ts';
import type { OpenedSession, Session } from './session.ts';
import { scenarioOf } from './simulated-scenario.ts';

/** Board time between two checks for a stop: no frame comes after the last. */
const SLICE_S = 0.001;

export async function emulatedSession(
  options: ModelOptions,
  config: RepairConfig,
  crew: Crew | null = null,
): Promise<OpenedSession> {
  const checked = scenarioOf({ ...options, manual: options.manual || crew !== null }, config);
  if (!checked.ok) return { ok: false, lines: checked.problems.map(problemLine) };
  const { value: scenario } = checked;
  const unfit = scenario.faults.filter((fault) => !isEmulated(fault));
  if (unfit.length > 0) return { ok: false, lines: unfit.map(({ kind }) => refusedFault(kind)) };
  const emulated = createEmulatedBench({ image: loadImage(readImage()), scenario });
  const clock = createVirtualClock(emulated, () => nextTurn());
  const opened = await openBoard(emulated, clock, scenario, config);
  if (!opened.ok) return opened;
  const speed = options.speed ?? (options.manual ? 1 : 'max');
  const session = modelSession(options, scenario, crew, {
    board: opened.board,
    hands: emulated,
    speed,
    run: () => paceEmulated(clock, speed),
    extra: { firmwareImageSha256: imageFacts.sha256 },
  });
  return { ok: true, session: readingItsDisplay(session, emulated) };
}

const refusedFault = (kind: string): string =>
  problemLine({
    file: '--fault',
    path: 'kind',
    value: JSON.stringify(kind),
    accepted: `on the emulated board: ${EMULATED_FAULT_NAMES.join(', ')}`,
  });

async function openBoard(
  emulated: EmulatedBench,
  clock: VirtualClock,
  { seed, tickS }: Scenario,
  { unit }: RepairConfig,
): Promise<
  | { readonly ok: true; readonly board: Board }
  | { readonly ok: false; readonly lines: readonly string[] }
> {
  const opening = openFirmataBoard({
    openLine: async () => createInProcessLine(emulated),
    portName: `emu-${seed}`,
    scheduler: clock.scheduler,
    tickS,
    limits: boardLimitsOf(unit),
    onNotice: (words) => printError(`board: ${words}\n`),
  });
  const opened = await during(clock, opening);
  if (!opened.ok) {
    return { ok: false, lines: [`emulated board: ${opened.problem.words}`, opened.problem.advice] };
  }
  const { board } = opened;
  return {
    ok: true,
    board: {
      ...board,
      identity: { ...board.identity, kind: 'emulated board' },
      close: () => during(clock, board.close()),
    },
  };
}

/** A reader of the display sees what the firmware has drawn on it. */
const readingItsDisplay = (session: Session, { display }: EmulatedBench): Session => {
  const { person } = session;
  return person === undefined
    ? session
    : { ...session, person: (timeS) => person(timeS, display()) };
};

/** As fast as asked for, or as possible where that is slower. */
function paceEmulated(clock: VirtualClock, speed: Speed): Pacer {
  let running = true;
  const go = async (): Promise<void> => {
    const startMs = performance.now();
    const startS = clock.nowS();
    while (running) {
      await clock.sleep(SLICE_S);
      if (speed === 'max') continue;
      const dueMs = startMs + ((clock.nowS() - startS) * 1000) / speed;
      const earlyMs = dueMs - performance.now();
      if (earlyMs > 1) await passed(earlyMs);
    }
  };
  return {
    stop: () => {
      running = false;
    },
    done: go(),
  };
}

/** Sources and bundle are at different depths below the same root. */
function readImage(): string {
  let folder = dirname(fileURLToPath(import.meta.url));
  const place = join('hal', 'firmware', 'image', imageFacts.file);
  while (!existsSync(join(folder, place)) && dirname(folder) !== folder) folder = dirname(folder);
  return readFileSync(join(folder, place), 'utf8');
}
