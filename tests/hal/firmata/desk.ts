/** A board opened on scripted lines in virtual time, as most tests here need it. */
import { type FirmataBoardOptions, openFirmataBoard } from '../../../hal/firmata/firmata-board.ts';
import type { Limits } from '../../../hal/firmata/limits.ts';
import type { OpenLine } from '../../../hal/firmata/line.ts';
import type { Frame, Outputs } from '../../../src/core/frame.ts';
import { SAFE } from '../../../src/core/frame.ts';
import { createScriptedLine, OURS, type Script, type ScriptedLine } from './scripted-firmware.ts';
import { createVirtualTime, type VirtualTime } from './virtual-time.ts';

export const TICK_S = 0.05;
export const LIMITS: Limits = {
  pressureCeiling: 700,
  heatSinkFloor: 100,
  glassFloor: 200,
  longestLampOnS: 600,
  leaseMs: 500,
};
export const GENTLE: Outputs = {
  ...SAFE,
  pumpRatio: 0.3,
  ventOpen: false,
  buzzer: 'off',
  status: { colour: 'off', flashing: false },
  display: ['', '', '', ''],
  clearTrips: false,
};

/** Moves time until the promise has settled. */
export async function awaiting<T>(time: VirtualTime, promise: Promise<T>): Promise<T> {
  let done = false;
  const finish = () => {
    done = true;
  };
  promise.then(finish, finish);
  for (let i = 0; i < 2000 && !done; i++) await time.advance(0.005);
  return promise;
}

export const optionsOn = ({ scheduler }: VirtualTime, openLine: OpenLine): FirmataBoardOptions => ({
  openLine,
  portName: 'port-1',
  scheduler,
  tickS: TICK_S,
  limits: LIMITS,
});

export interface Desk {
  readonly time: VirtualTime;
  readonly lines: ScriptedLine[];
  readonly notices: string[];
  readonly opened: Awaited<ReturnType<typeof openFirmataBoard>>;
}

/** `scripts`: one a connection, the last for good; null is a port that does not open. */
export async function openOn(scripts: readonly (Script | null)[]): Promise<Desk> {
  const time = createVirtualTime();
  const lines: ScriptedLine[] = [];
  const notices: string[] = [];
  let asked = 0;
  const openLine = async () => {
    const script = scripts[Math.min(asked++, scripts.length - 1)];
    if (script === null || script === undefined) throw new Error('nothing plugged in');
    const line = createScriptedLine(script);
    lines.push(line);
    return line;
  };
  const onNotice = (words: string) => notices.push(words);
  const opened = await awaiting(time, openFirmataBoard({ ...optionsOn(time, openLine), onNotice }));
  return { time, lines, notices, opened };
}

/** A board of ours that answered, with the frames that it gives. */
export async function openBoard(scripts: readonly (Script | null)[] = [OURS]) {
  const desk = await openOn(scripts);
  if (!desk.opened.ok) throw new Error(desk.opened.problem.words);
  const { board } = desk.opened;
  const frames: Frame[] = [];
  board.frames$.subscribe((frame) => frames.push(frame));
  const line = () => desk.lines.at(-1)!;
  /** Frames every tick for a while, from this board time on. */
  const running = async (seconds: number, fromMs: number, fields = {}) => {
    const ticks = Math.round(seconds / TICK_S);
    for (let i = 0; i < ticks; i++) {
      line().sendsFrame({ timeMs: fromMs + i * TICK_S * 1000, ...fields });
      await desk.time.advance(TICK_S);
    }
  };
  return { ...desk, board, frames, line, running };
}
