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
import type { Board } from '../hal/board.ts';
import { type ControllerStep, stepController } from './controller.ts';
import { CONTROLLER_START, type JobConfig } from './controller-state.ts';
import type { Frame, Outputs, Request } from './frame.ts';

/** One tick as consumers see it. */
export interface Tick extends ControllerStep {
  readonly frame: Frame;
  readonly requests: readonly Request[];
}

export interface Consumer<T = Tick> {
  /** For the message when it fails. */
  readonly name: string;
  readonly take: (tick: T) => void;
}

export interface PipelineCallbacks {
  /** A consumer threw; it gets no more ticks, control goes on. */
  readonly onConsumerError: (name: string, error: unknown) => void;
  /** The controller itself threw: the board has been made safe and nothing more will come. */
  readonly onFault: (error: unknown) => void;
  readonly onEnd: () => void;
}

/** One step function with the state that it starts from; a repair's or another procedure's. */
export interface Loop<T extends LoopTick, R> {
  readonly start: T['state'];
  readonly advance: (state: T['state'], frame: Frame, requests: readonly R[]) => T;
}

export interface LoopTick {
  readonly state: { readonly ended: boolean };
  readonly outputs: Outputs;
}

export interface Pipeline<R = Request> {
  /** Queued for the next tick. */
  readonly request: (request: R) => void;
  readonly close: () => void;
}

export function createPipeline(
  board: Board,
  config: JobConfig,
  consumers: readonly Consumer[],
  callbacks: PipelineCallbacks,
): Pipeline {
  const repair: Loop<Tick, Request> = {
    start: CONTROLLER_START,
    advance: (before, frame, requests) => {
      const step = stepController(config, before, frame, requests);
      const { state, outputs, events, snapshot } = step;
      return { frame, requests, state, outputs, events, snapshot };
    },
  };
  return createLoop(board, repair, consumers, callbacks);
}

export function createLoop<T extends LoopTick, R>(
  board: Board,
  { start, advance }: Loop<T, R>,
  consumers: readonly Consumer<T>[],
  callbacks: PipelineCallbacks,
): Pipeline<R> {
  const queue: R[] = [];
  const ticks$ = board.frames$.pipe(
    scan<Frame, T, Pick<T, 'state'>>(({ state }, frame) => advance(state, frame, queue.splice(0)), {
      state: start,
    }),
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

function subscribeGuarded<T>(
  ticks$: Observable<T>,
  { name, take }: Consumer<T>,
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
