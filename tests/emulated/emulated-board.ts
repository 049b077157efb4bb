/** The real firmware on the emulated bench, and the host's driver on a line to it, in one process. */
import { readFileSync } from 'node:fs';
import { setImmediate as nextTurn } from 'node:timers/promises';
import type { Board } from '../../hal/board.ts';
import { openFirmataBoard } from '../../hal/firmata/firmata-board.ts';
import type { PlantWatch } from '../../sim/board/rig.ts';
import { during } from '../../sim/emulator/during.ts';
import { createEmulatedBench, type EmulatedBench } from '../../sim/emulator/emulated-bench.ts';
import { loadImage } from '../../sim/emulator/image.ts';
import { createInProcessLine, type InProcessLine } from '../../sim/emulator/in-process-line.ts';
import { createVirtualClock, type VirtualClock } from '../../sim/emulator/virtual-clock.ts';
import type { Scenario } from '../../sim/faults/scenario.ts';
import { boardLimitsOf } from '../../src/control/board-limits.ts';
import { DEFAULT_CONFIG } from '../configs.ts';

const IMAGE = loadImage(
  readFileSync(new URL('../../hal/firmware/image/meniscus.hex', import.meta.url), 'utf8'),
);

export interface EmulatedBoard {
  readonly board: Board;
  readonly bench: EmulatedBench;
  readonly clock: VirtualClock;
  /** The line in use; a new one after every reconnection. */
  readonly line: () => InProcessLine;
  readonly notices: readonly string[];
}

export async function openEmulatedBoard(
  scenario: Scenario,
  watch: PlantWatch | null = null,
): Promise<EmulatedBoard> {
  const bench = createEmulatedBench({ image: IMAGE, scenario, watch });
  const clock = createVirtualClock(bench, () => nextTurn());
  const notices: string[] = [];
  let line: InProcessLine | null = null;
  const opening = openFirmataBoard({
    openLine: async () => {
      line = createInProcessLine(bench);
      return line;
    },
    portName: 'in-process',
    scheduler: clock.scheduler,
    tickS: scenario.tickS,
    limits: boardLimitsOf(DEFAULT_CONFIG.unit),
    onNotice: (words) => notices.push(words),
  });
  const result = await during(clock, opening);
  if (!result.ok) throw new Error(`${result.problem.words} ${result.problem.advice}`);
  const lineNow = (): InProcessLine => {
    if (line === null) throw new Error('no line yet');
    return line;
  };
  const { board } = result;
  return {
    board: { ...board, close: () => during(clock, board.close()) },
    bench,
    clock,
    line: lineNow,
    notices,
  };
}
