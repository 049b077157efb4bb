/**
 * The same board contract, through serialport and a pseudo-terminal. Host and board share one
 * clock, slower than real time, so that a busy machine makes neither late.
 */
import { setTimeout as sleepMs } from 'node:timers/promises';
import { afterAll, beforeAll, describe } from 'vitest';
import { boardContract } from '../board-contract.ts';
import type { OpenBoard } from '../board-on-bench.ts';
import { scenarioWith } from '../sim/board/lock-step.ts';
import { type RunningEmulator, startEmulator } from '../sim/emulator/emulator-launcher.ts';
import { openOverPty, pinsNow, slowTime, whyNoPty } from './pty-board.ts';

const SLOW = 2;
const SLOW_TIME = slowTime(SLOW);

const skip = whyNoPty();
if (skip !== null) console.warn(`the board contract over the pseudo-terminal ${skip}`);

describe.skipIf(skip !== null)('over a pseudo-terminal', () => {
  let emulator: RunningEmulator;
  let stopPressed = false;
  beforeAll(async () => {
    emulator = await startEmulator({ scenario: scenarioWith(), pace: { timesReal: 1 / SLOW } });
  });
  afterAll(async () => {
    await emulator.stop();
  });
  const pressStop = (pressed: boolean): void => {
    if (pressed !== stopPressed) emulator.command('estop');
    stopPressed = pressed;
  };
  const setMute = (muted: boolean): void =>
    emulator.command(`mute to-host ${muted ? 'on' : 'off'}`);

  const open: OpenBoard = async ({ muteFromS }) => {
    pressStop(false);
    setMute(false);
    emulator.command('power');
    await new Promise((resolve) => setTimeout(resolve, 100));
    const board = await openOverPty(emulator.link, 0.05, SLOW_TIME);
    if (muteFromS === 0) setMute(true);
    else if (muteFromS !== null) setTimeout(() => setMute(true), 1000 * SLOW * muteFromS);
    return {
      board,
      advance: (seconds) => sleepMs(1000 * SLOW * seconds),
      shaft: { outputsNow: () => pinsNow(emulator) },
      emergencyStop: pressStop,
    };
  };
  // One process runs all tests here, and its faults were set when it began.
  boardContract('emulated board behind a serial port', open, { canMute: true, canFail: false });
});
