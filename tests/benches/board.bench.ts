/**
 * The board contract on a board with hardware: `npm run bench -- --port NAME`. The acting outputs
 * are those that the board reports for its own pins. Nothing is driven harder than a gentle vacuum,
 * and the lamp not at all. A person has to press the emergency stop when asked, and must not pull a
 * cable.
 */
import { createInterface } from 'node:readline/promises';
import { setTimeout as sleepMs } from 'node:timers/promises';
import { REAL_TIME } from '../../hal/firmata/clock.ts';
import { openFirmataBoard } from '../../hal/firmata/firmata-board.ts';
import { FULL_DUTY } from '../../hal/firmata/protocol.ts';
import { openSerialLine } from '../../hal/firmata/serial-line.ts';
import { boardLimitsOf } from '../../src/control/board-limits.ts';
import { type Actuators, SAFE } from '../../src/core/frame.ts';
import { boardContract } from '../board-contract.ts';
import type { BoardOnBench } from '../board-on-bench.ts';
import { DEFAULT_CONFIG } from '../configs.ts';

const port = process.env['MENISCUS_PORT'] ?? '';
const TICK_S = 0.05;

async function ask(words: string): Promise<void> {
  const terminal = createInterface({ input: process.stdin, output: process.stdout });
  await terminal.question(`\n${words}, then press Enter. `);
  terminal.close();
}

async function open(): Promise<BoardOnBench> {
  let acting: Actuators = SAFE;
  const opened = await openFirmataBoard({
    openLine: () => openSerialLine(port),
    portName: port,
    scheduler: REAL_TIME,
    tickS: TICK_S,
    limits: boardLimitsOf(DEFAULT_CONFIG.unit),
    onActing: ({ pumpDuty, lampDuty, selectorPressure, ventOpen, lampEnabled }) => {
      acting = {
        pumpRatio: pumpDuty / FULL_DUTY,
        selector: selectorPressure ? 'pressure' : 'vacuum',
        ventOpen,
        lampEnabled,
        lampRatio: lampDuty / FULL_DUTY,
      };
    },
  });
  if (!opened.ok) throw new Error(`${opened.problem.words} ${opened.problem.advice}`);
  return {
    board: opened.board,
    advance: (seconds) => sleepMs(1000 * seconds),
    // What acts now is told by the next frame.
    shaft: { outputsNow: () => sleepMs(2000 * TICK_S).then(() => acting) },
    emergencyStop: (pressed) =>
      ask(pressed ? 'Press the emergency stop' : 'Release the emergency stop'),
  };
}

boardContract(`board at ${port}`, open, { canMute: false, canFail: false });
