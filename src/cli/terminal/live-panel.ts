/**
 * The panel while a procedure runs: a picture on a terminal, otherwise one line for each event and
 * for each quarter of a dose. `live-drawing.ts` decides how often it is drawn, the procedure what
 * it contains.
 */
import { distinctUntilChanged, filter, map, merge, type Observable, tap } from 'rxjs';
import type { Streams, Tick } from '../../app/pipeline.ts';
import type { ProcedureTypes } from '../../control/controller-state.ts';
import type { DoseSoFar } from '../../control/procedure.ts';
import type { Event } from '../../core/events.ts';
import { escapedValue } from '../../core/plain-text.ts';
import { createLiveDrawing, type LiveDrawing } from './live-drawing.ts';

export interface Showing<P extends ProcedureTypes> {
  /** `typed`: the line in which a number is typed. */
  readonly pictureOf: (tick: Tick<P>, colour: boolean, typed: string) => string;
  /** Null for events that would only clutter a terminal. */
  readonly lineOf: (event: Event) => string | null;
  /** Null in a procedure that cures nothing. */
  readonly doseLineOf: ((dose: DoseSoFar) => string) | null;
}

export interface LivePanel<P extends ProcedureTypes>
  extends Pick<LiveDrawing<Tick<P>>, 'aside' | 'close'> {
  readonly follow: (streams: Streams<P>) => Observable<unknown>;
}

export async function createLivePanel<P extends ProcedureTypes>(
  out: NodeJS.WriteStream,
  { pictureOf, lineOf, doseLineOf }: Showing<P>,
  typed: () => string,
): Promise<LivePanel<P>> {
  if (out.isTTY) {
    const drawing = await createLiveDrawing<Tick<P>>(out, (tick, colour) =>
      pictureOf(tick, colour, typed()),
    );
    return { ...drawing, follow: ({ ticks$ }) => ticks$.pipe(tap(drawing.take)) };
  }
  return {
    follow: ({ events$, dose$ }) =>
      merge(
        events$.pipe(map(lineOf)),
        dose$.pipe(
          eachQuarter,
          map((dose) => doseLineOf?.(dose) ?? null),
        ),
      ).pipe(
        filter((line) => line !== null),
        tap((line) => out.write(`${escapedValue(line)}\n`)),
      ),
    aside: (write) => write(),
    close: () => undefined,
  };
}

/**
 * The first tick of each quarter of the target, except for the full target, which has an event of
 * its own.
 */
const eachQuarter = (dose$: Observable<DoseSoFar>): Observable<DoseSoFar> => {
  const quarterOf = ({ doseJPerM2, targetJPerM2 }: DoseSoFar): number =>
    Math.floor((4 * doseJPerM2) / targetJPerM2);
  return dose$.pipe(
    distinctUntilChanged((before, now) => quarterOf(before) === quarterOf(now)),
    filter((dose) => quarterOf(dose) >= 1 && quarterOf(dose) < 4),
  );
};
