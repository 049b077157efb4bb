/**
 * Batch states of ISA-88 (IEC 61512-1) as a table of what leads where. Holding, stopping and
 * aborting pass on by themselves once the unit is at rest; only a person leads out of held. When to
 * hold or abort is decided by the alarms, when a phase is done by the phases.
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

/** The state that a command leads to, or null where the state does not take it. */
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
