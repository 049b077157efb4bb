/** The emulated board in a process of its own, behind a pseudo-terminal that serialport opens. */
import { execFileSync } from 'node:child_process';
import type { SchedulerLike } from 'rxjs';
import type { Board } from '../../hal/board.ts';
import { REAL_TIME, schedulerOn } from '../../hal/firmata/clock.ts';
import { openFirmataBoard } from '../../hal/firmata/firmata-board.ts';
import { openSerialLine } from '../../hal/firmata/serial-line.ts';
import { boardLimitsOf } from '../../src/control/board-limits.ts';
import type { Actuators } from '../../src/core/frame.ts';
import { DEFAULT_CONFIG } from '../configs.ts';
import type { RunningEmulator } from '../sim/emulator/emulator-launcher.ts';

/** Null where it is there, else the reason to print with a skipped test. */
export function whyNoPty(): string | null {
  try {
    execFileSync('socat', ['-V'], { stdio: 'ignore' });
    return null;
  } catch {
    return 'skipped: socat is not installed, so there is no pseudo-terminal (Debian: apt install socat)';
  }
}

/** Runs so many times slower than the wall's clock. */
export const slowTime = (times: number): SchedulerLike =>
  schedulerOn(
    () => REAL_TIME.now() / times,
    (delayMs, run) => {
      const timer = setTimeout(run, times * delayMs);
      return () => clearTimeout(timer);
    },
  );

export async function openOverPty(
  link: string,
  tickS: number,
  scheduler: SchedulerLike = REAL_TIME,
): Promise<Board> {
  const opened = await openFirmataBoard({
    openLine: () => openSerialLine(link),
    portName: link,
    scheduler,
    comparesClocks: scheduler === REAL_TIME,
    tickS,
    limits: boardLimitsOf(DEFAULT_CONFIG.unit),
  });
  if (!opened.ok) throw new Error(`${opened.problem.words} ${opened.problem.advice}`);
  return opened.board;
}

/** What the board's pins ask for now. */
export async function pinsNow(emulator: RunningEmulator): Promise<Actuators> {
  const state = emulator.next('state');
  emulator.command('report');
  return (await state)['pins'] as Actuators;
}
