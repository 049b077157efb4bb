/**
 * The panel while a procedure runs: a picture on a terminal, otherwise one line for each event.
 * `live-drawing.ts` decides how often it is drawn, the procedure what it contains.
 */

import type { Tick } from '../../app/pipeline.ts';
import type { ProcedureTypes } from '../../control/controller-state.ts';
import type { Event } from '../../core/events.ts';
import { escapedValue } from '../../core/plain-text.ts';
import { createLiveDrawing, type LiveDrawing } from './live-drawing.ts';

export interface Showing<P extends ProcedureTypes> {
  /** `typed`: the line in which a number is typed. */
  readonly pictureOf: (tick: Tick<P>, colour: boolean, typed: string) => string;
  /** Null for events that would only clutter a terminal. */
  readonly lineOf: (event: Event) => string | null;
}

export type LivePanel<P extends ProcedureTypes> = LiveDrawing<Tick<P>>;

export async function createLivePanel<P extends ProcedureTypes>(
  out: NodeJS.WriteStream,
  { pictureOf, lineOf }: Showing<P>,
  typed: () => string,
): Promise<LivePanel<P>> {
  if (out.isTTY) {
    return createLiveDrawing(out, (tick, colour) => pictureOf(tick, colour, typed()));
  }
  return {
    take: ({ events }) => {
      for (const event of events) {
        const line = lineOf(event);
        if (line !== null) out.write(`${escapedValue(line)}\n`);
      }
    },
    aside: (write) => write(),
    close: () => undefined,
  };
}
