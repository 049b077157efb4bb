/**
 * Keeps the panel's picture on a terminal up to date, a few times a second of wall time, whatever
 * the speed of the run. Without a terminal it prints a line for each event instead. It only shows;
 * a failure here cannot reach control.
 */
import type { Tick } from '../pipeline.ts';
import { eventLine } from './event-lines.ts';
import { drawPanel, type PanelPicture } from './panel-drawing.ts';

/** Faster redraws only flicker. */
const REDRAW_MS = 100;

export interface LivePanel {
  readonly take: (tick: Tick) => void;
  /** Draws the last picture once more and leaves it on the screen. */
  readonly close: () => void;
}

export type Surroundings = Omit<PanelPicture, 'signals' | 'snapshot' | 'seen'> & {
  readonly look: () => string | null;
};

export async function createLivePanel(
  out: NodeJS.WriteStream,
  surroundings: Surroundings,
): Promise<LivePanel> {
  return out.isTTY ? await terminalPanel(out, surroundings) : eventLog(out);
}

function eventLog(out: NodeJS.WriteStream): LivePanel {
  return {
    take: ({ events }) => {
      for (const event of events) {
        const line = eventLine(event);
        if (line !== null) out.write(`${line}\n`);
      }
    },
    close: () => undefined,
  };
}

async function terminalPanel(
  out: NodeJS.WriteStream,
  surroundings: Surroundings,
): Promise<LivePanel> {
  // Loaded only where there is a terminal: it is a tenth of the program's start.
  const { createLogUpdate } = await import('log-update');
  const update = createLogUpdate(out, { showCursor: false });
  const colour = out.hasColors?.() ?? false;
  let last: Tick | null = null;
  let drawnMs = Number.NEGATIVE_INFINITY;
  const draw = (): void => {
    if (last === null) return;
    const { outputs, snapshot } = last;
    const picture = { ...surroundings, signals: outputs, snapshot, seen: surroundings.look() };
    update(drawPanel(picture, colour));
  };
  return {
    take: (tick) => {
      last = tick;
      const nowMs = performance.now();
      if (nowMs - drawnMs < REDRAW_MS) return;
      drawnMs = nowMs;
      draw();
    },
    close: () => {
      draw();
      update.done();
    },
  };
}
