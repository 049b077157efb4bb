/**
 * What firmata-io gets in place of a serial port: the line behind the message filter. It tells once
 * that the line is lost, whichever way that shows (close, error, a write that failed, bytes that
 * the line does not take), and after that neither reads nor writes. It never holds bytes back.
 */
import { EventEmitter } from 'node:events';
import { type Observable, Subject } from 'rxjs';
import { ProblemError, problemOf } from './errors.ts';
import type { Line } from './line.ts';
import { type FilterState, FRESH_FILTER, stepFilter } from './message-filter.ts';
import { BAUD } from './protocol.ts';

const BITS_PER_BYTE = 10;
/** Bytes that the line may owe us: what it carries in a fifth of a second. */
const LONGEST_BACKLOG_BYTES = (0.2 * BAUD) / BITS_PER_BYTE;

export interface Transport extends EventEmitter {
  readonly write: (bytes: Buffer, done?: () => void) => void;
  /** Tells firmata-io that the line is open; once it has attached. */
  readonly start: () => void;
  readonly receivedBytes: () => number;
  readonly messages: () => number;
  /** Runs of bytes that made no message since this was last asked. */
  readonly takeDroppedRuns: () => number;
  /** Errors with a ProblemError when the line is lost, also for who comes later. */
  readonly lost$: Observable<never>;
  /** Lets go of the line; closing it is for whoever opened it. */
  readonly release: () => void;
}

interface State {
  filter: FilterState;
  bytes: number;
  messages: number;
  undigested: number;
  toldRuns: number;
  backlogBytes: number;
  usable: boolean;
}

/** `onUndigested`: firmata-io threw on a message; the message is dropped. */
export function createTransport(line: Line, onUndigested: (error: unknown) => void): Transport {
  const emitter = new EventEmitter();
  const state: State = {
    filter: FRESH_FILTER,
    bytes: 0,
    messages: 0,
    undigested: 0,
    toldRuns: 0,
    backlogBytes: 0,
    usable: true,
  };
  const lost$ = new Subject<never>();
  const lose = (why: string): void => {
    if (!state.usable) return;
    state.usable = false;
    lost$.error(new ProblemError(problemOf('port-gone', why)));
  };
  const onData = (bytes: Uint8Array): void => deliver(state, emitter, bytes, onUndigested);
  const onClose = (): void => lose('The line closed.');
  const onOpen = (): boolean => emitter.emit('open');
  line.on('data', onData);
  line.on('close', onClose);
  line.on('error', (error) => lose(error.message));
  return Object.assign(emitter, {
    write: (bytes: Buffer, done?: () => void) => writeOn(line, state, lose, bytes, done),
    start: () => {
      if (line.isOpen) onOpen();
      else line.on('open', onOpen);
    },
    receivedBytes: () => state.bytes,
    messages: () => state.messages,
    takeDroppedRuns: () => {
      const before = state.toldRuns;
      state.toldRuns = state.filter.droppedRuns + state.undigested;
      return state.toldRuns - before;
    },
    lost$,
    release: () => {
      state.usable = false;
      line.off('data', onData);
      line.off('close', onClose);
      line.off('open', onOpen);
      // The error listener stays: a port may fail once more while it closes, and nobody may crash.
      emitter.removeAllListeners();
    },
  });
}

function deliver(
  state: State,
  emitter: EventEmitter,
  bytes: Uint8Array,
  onUndigested: (error: unknown) => void,
): void {
  const filtered = stepFilter(state.filter, bytes);
  state.filter = filtered.state;
  state.bytes += bytes.length;
  for (const message of filtered.messages) {
    if (!state.usable) return;
    state.messages++;
    try {
      emitter.emit('data', Buffer.from(message));
    } catch (error) {
      state.undigested++;
      onUndigested(error);
    }
  }
}

function writeOn(
  line: Line,
  state: State,
  lose: (why: string) => void,
  bytes: Buffer,
  done?: () => void,
): void {
  if (!state.usable) return;
  if (state.backlogBytes > LONGEST_BACKLOG_BYTES) {
    lose('The line takes no more bytes.');
    return;
  }
  state.backlogBytes += bytes.length;
  line.write(bytes, (error) => {
    state.backlogBytes -= bytes.length;
    if (error) lose(error.message);
    else done?.();
  });
}
