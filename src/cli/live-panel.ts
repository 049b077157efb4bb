/**
 * The panel of a job while it runs: a picture on a terminal, and without one a line for each event.
 * How often it is drawn is left to `live-drawing.ts`.
 */
import type { Tick } from '../pipeline.ts';
import { eventLine } from './event-lines.ts';
import { createLiveDrawing, type LiveDrawing } from './live-drawing.ts';
import { drawPanel, type PanelPicture } from './panel-drawing.ts';

export type LivePanel = LiveDrawing<Tick>;

export type Surroundings = Omit<PanelPicture, 'signals' | 'snapshot' | 'seen'> & {
  readonly look: () => string | null;
};

export async function createLivePanel(
  out: NodeJS.WriteStream,
  surroundings: Surroundings,
): Promise<LivePanel> {
  if (!out.isTTY) return eventLog(out);
  return createLiveDrawing(out, ({ outputs, snapshot }, colour) =>
    drawPanel({ ...surroundings, signals: outputs, snapshot, seen: surroundings.look() }, colour),
  );
}

function eventLog(out: NodeJS.WriteStream): LivePanel {
  return {
    take: ({ events }) => {
      for (const event of events) {
        const line = eventLine(event);
        if (line !== null) out.write(`${line}\n`);
      }
    },
    aside: (write) => write(),
    close: () => undefined,
  };
}
