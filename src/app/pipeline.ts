/**
 * The RxJS shell around the pure step: frames through `scan(step)`, outputs to the board inside the
 * stream, then every consumer on an error path of its own, so that none can stop control. What fails
 * in the stream itself ends on one path, which makes safe first. No time operators: the
 * frames are the clock. Which consumers there are is decided by the composition root.
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

/** One tick as consumers see it. */
export interface Tick<P extends ProcedureTypes> extends ControllerStep<P> {
  readonly frame: Frame;
  readonly requests: readonly Request[];
}

export interface Consumer<P extends ProcedureTypes> {
  /** For the message when it fails. */
  readonly name: string;
  readonly take: (tick: Tick<P>) => void;
}

export interface PipelineCallbacks {
  /** A consumer threw; it gets no more ticks, control goes on. */
  readonly onConsumerError: (name: string, error: unknown) => void;
  /** The controller itself threw: the board has been made safe and nothing more will come. */
  readonly onFault: (error: unknown) => void;
  readonly onEnd: () => void;
}

export interface Pipeline {
  /** Queued for the next tick. */
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
    // Whatever failed, board, frames or the controller itself: safe first, then everybody hears of it.
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

/** Makes the board safe and gives the error; one of making safe does not hide it. */
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
