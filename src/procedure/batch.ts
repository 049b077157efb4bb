/**
 * The batch states of ISA-88 (IEC 61512-1) as a transition table. Holding, stopping and aborting
 * proceed by themselves once the unit is at rest; only a person leads out of held. The alarms
 * decide when to hold or abort, the phases when a phase is done.
 */
import type { BatchState } from '../core/events.ts';

export type BatchCommand = 'start' | 'hold' | 'restart' | 'stop' | 'abort' | 'settled' | 'finish';

type Row = Readonly<Partial<Record<BatchCommand, BatchState>>>;

const TRANSITIONS: Readonly<Record<BatchState, Row>> = {
  idle: { start: 'running', stop: 'stopping', abort: 'aborting' },
  running: { hold: 'holding', stop: 'stopping', abort: 'aborting', finish: 'complete' },
  holding: { settled: 'held', stop: 'stopping', abort: 'aborting' },
  held: { restart: 'restarting', stop: 'stopping', abort: 'aborting' },
  restarting: { settled: 'running', hold: 'holding', stop: 'stopping', abort: 'aborting' },
  stopping: { settled: 'stopped', abort: 'aborting' },
  aborting: { settled: 'aborted' },
  stopped: {},
  aborted: {},
  complete: {},
};

/** The state to which a command leads, or null where the state does not accept it. */
export function nextBatchState(state: BatchState, command: BatchCommand): BatchState | null {
  return TRANSITIONS[state][command] ?? null;
}

/** A job in one of these is over. */
export function isEnded(state: BatchState): state is 'stopped' | 'aborted' | 'complete' {
  return state === 'stopped' || state === 'aborted' || state === 'complete';
}

/** A job in one of these waits for the unit to come to rest. */
export function isComingToRest(state: BatchState): boolean {
  return state === 'holding' || state === 'stopping' || state === 'aborting';
}
