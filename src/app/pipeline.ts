/**
 * The RxJS shell around the pure step. Frames and requests merge into `scan(step)`. The outputs are
 * written inside the stream, before anything else sees the tick. Named streams then go to journal,
 * panel and terminal, each on its own error path, so that none can stop control. Failures in the
 * stream itself end on one path that makes safe first. There are no time operators: frames are the
 * clock.
 */
import {
  catchError,
  connectable,
  distinctUntilChanged,
  EMPTY,
  filter,
  map,
  merge,
  mergeMap,
  type Observable,
  Subject,
  type Subscription,
  scan,
  takeWhile,
  tap,
  throwError,
} from 'rxjs';
import type { Board } from '../../hal/board.ts';
import { type ControllerStep, stepController } from '../control/controller.ts';
import type { ProcedureTypes } from '../control/controller-state.ts';
import type { DoseSoFar, Procedure } from '../control/procedure.ts';
import type { Event } from '../core/events.ts';
import type { Frame, Reading, Request } from '../core/frame.ts';

/** One tick: its inputs, and the controller's results. */
export interface Tick<P extends ProcedureTypes> extends ControllerStep<P> {
  readonly frame: Frame;
  readonly requests: readonly Request[];
}

/** The streams to subscribe to. They end quietly, whatever ended the job. */
export interface Streams<P extends ProcedureTypes> {
  readonly ticks$: Observable<Tick<P>>;
  /** Pressure, light, temperatures and switches in units, one reading a frame. */
  readonly readings$: Observable<Reading>;
  /** Phases, answers, measurements, alarms: the story of the job. */
  readonly events$: Observable<Event>;
  /** Whenever light was counted, or the target changed. */
  readonly dose$: Observable<DoseSoFar>;
  readonly snapshots$: Observable<P['snapshot']>;
}

export interface Consumer<P extends ProcedureTypes> {
  /** Used in the message when it fails. */
  readonly name: string;
  readonly follow: (streams: Streams<P>) => Observable<unknown>;
}

export interface PipelineCallbacks {
  /** A consumer threw; it gets no more ticks, and control continues. */
  readonly onConsumerError: (name: string, error: unknown) => void;
  /** The controller itself threw: the board has been made safe and no more ticks follow. */
  readonly onFault: (error: unknown) => void;
  readonly onEnd: () => void;
}

export interface Pipeline {
  /** Answered by the next frame's tick. */
  readonly request: (request: Request) => void;
  readonly close: () => void;
}

export function createPipeline<P extends ProcedureTypes>(
  board: Board,
  procedure: Procedure<P>,
  config: P['config'],
  consumers: readonly Consumer<P>[],
  callbacks: PipelineCallbacks,
): Pipeline {
  const requests$ = new Subject<Request>();
  const ticks$ = connectable(
    stepsOf(board, requests$, procedure, config).pipe(
      tap(({ outputs }) => board.write(outputs)),
      takeWhile(({ state }) => !state.ended, true),
      // Board, frames or the controller itself failed: safe first, then the fault is reported.
      catchError((error: unknown) => throwError(() => madeSafeAfter(error, board))),
    ),
    { connector: () => new Subject<Tick<P>>(), resetOnDisconnect: false },
  );
  const streams = streamsOf(ticks$, procedure);
  const subscriptions = consumers.map((consumer) => guarded(consumer, streams, callbacks));
  subscriptions.push(ticks$.subscribe({ complete: callbacks.onEnd, error: callbacks.onFault }));
  // No frame before all consumers have subscribed.
  subscriptions.push(ticks$.connect());
  return {
    request: (request) => requests$.next(request),
    close: () => {
      for (const subscription of subscriptions) subscription.unsubscribe();
    },
  };
}

/** Requests wait for the next frame; each frame is one step. */
function stepsOf<P extends ProcedureTypes>(
  { frames$ }: Board,
  requests$: Subject<Request>,
  procedure: Procedure<P>,
  config: P['config'],
): Observable<Tick<P>> {
  type Held = Pick<Tick<P>, 'state' | 'requests'> & { readonly tick: Tick<P> | null };
  const start: Held = { state: procedure.start(config), requests: [], tick: null };
  const asked$ = requests$.pipe(
    map((request) => (held: Held): Held => {
      return { state: held.state, requests: [...held.requests, request], tick: null };
    }),
  );
  const stepped$ = frames$.pipe(
    map((frame) => ({ state, requests }: Held): Held => {
      const step = stepController(procedure, config, state, frame, requests);
      const { reading, outputs, events, snapshot } = step;
      const tick = { frame, requests, state: step.state, reading, outputs, events, snapshot };
      return { state: step.state, requests: NO_REQUESTS, tick };
    }),
    tap({ complete: () => requests$.complete() }),
  );
  return merge(asked$, stepped$).pipe(
    scan((held, change) => change(held), start),
    map(({ tick }) => tick),
    filter((tick) => tick !== null),
  );
}

const NO_REQUESTS: readonly Request[] = [];

function streamsOf<P extends ProcedureTypes>(
  source$: Observable<Tick<P>>,
  { doseOf }: Procedure<P>,
): Streams<P> {
  // A fault is reported once, by the pipeline.
  const ticks$ = source$.pipe(catchError(() => EMPTY));
  const snapshots$ = ticks$.pipe(map(({ snapshot }) => snapshot));
  return {
    ticks$,
    readings$: ticks$.pipe(map(({ reading }) => reading)),
    events$: ticks$.pipe(
      filter(({ events }) => events.length > 0),
      mergeMap(({ events }) => events),
    ),
    dose$: snapshots$.pipe(
      map(doseOf),
      filter((dose) => dose !== null),
      distinctUntilChanged(
        (a, b) => a.doseJPerM2 === b.doseJPerM2 && a.targetJPerM2 === b.targetJPerM2,
      ),
    ),
    snapshots$,
  };
}

/**
 * Makes the board safe and returns the error; a second error while making safe does not hide it.
 */
function madeSafeAfter(error: unknown, board: Board): unknown {
  try {
    board.makeSafe();
    return error;
  } catch (second) {
    const words = `${String(error)}; and the board could not be made safe: ${String(second)}`;
    return new AggregateError([error, second], words);
  }
}

const guarded = <P extends ProcedureTypes>(
  { name, follow }: Consumer<P>,
  streams: Streams<P>,
  { onConsumerError }: PipelineCallbacks,
): Subscription => follow(streams).subscribe({ error: (error) => onConsumerError(name, error) });
