/**
 * The RxJS shell around the pure step: frames go through `scan(step)`, outputs to the board inside
 * the stream, then to every consumer on its own error path, so that no consumer can stop control.
 * Failures in the stream itself end on one path that makes safe first. There are no time operators:
 * the frames are the clock. The composition root chooses the consumers.
 */
import {
  catchError,
  type Observable,
  type Subscription,
  scan,
  share,
  takeWhile,
  tap,
  throwError,
} from 'rxjs';
import type { Board } from '../../hal/board.ts';
import { type ControllerStep, stepController } from '../control/controller.ts';
import type { ProcedureTypes } from '../control/controller-state.ts';
import type { Procedure } from '../control/procedure.ts';
import type { Frame, Request } from '../core/frame.ts';

/** One tick as seen by consumers. */
export interface Tick<P extends ProcedureTypes> extends ControllerStep<P> {
  readonly frame: Frame;
  readonly requests: readonly Request[];
}

export interface Consumer<P extends ProcedureTypes> {
  /** Used in the message when it fails. */
  readonly name: string;
  readonly take: (tick: Tick<P>) => void;
}

export interface PipelineCallbacks {
  /** A consumer threw; it gets no more ticks, and control continues. */
  readonly onConsumerError: (name: string, error: unknown) => void;
  /** The controller itself threw: the board has been made safe and no more ticks follow. */
  readonly onFault: (error: unknown) => void;
  readonly onEnd: () => void;
}

export interface Pipeline {
  /** Queues the request for the next tick. */
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
  const queue: Request[] = [];
  const start: Pick<Tick<P>, 'state'> = { state: procedure.start(config) };
  const ticks$ = board.frames$.pipe(
    scan<Frame, Tick<P>, typeof start>((before, frame) => {
      const requests = queue.splice(0);
      const step = stepController(procedure, config, before.state, frame, requests);
      const { state, outputs, events, snapshot } = step;
      return { frame, requests, state, outputs, events, snapshot };
    }, start),
    tap(({ outputs }) => board.write(outputs)),
    takeWhile(({ state }) => !state.ended, true),
    // On any failure of board, frames or controller: make safe first, then report the error.
    catchError((error: unknown) => throwError(() => madeSafeAfter(error, board))),
    share(),
  );
  const subscriptions = consumers.map((consumer) => subscribeGuarded(ticks$, consumer, callbacks));
  subscriptions.push(ticks$.subscribe({ complete: callbacks.onEnd, error: callbacks.onFault }));
  return {
    request: (request) => queue.push(request),
    close: () => {
      for (const subscription of subscriptions) subscription.unsubscribe();
    },
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

function subscribeGuarded<P extends ProcedureTypes>(
  ticks$: Observable<Tick<P>>,
  { name, take }: Consumer<P>,
  { onConsumerError }: PipelineCallbacks,
): Subscription {
  const subscription = ticks$.subscribe({
    next: (tick) => {
      try {
        take(tick);
      } catch (error) {
        subscription.unsubscribe();
        onConsumerError(name, error);
      }
    },
    error: () => undefined,
  });
  return subscription;
}
