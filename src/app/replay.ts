/**
 * Replays a journal's frames through the controller and compares every decision: the outputs of
 * each tick, and every event. A difference means another version, other settings, or a changed
 * journal; a person must find out which.
 */

import { stepController } from '../control/controller.ts';
import type { ControllerState, ProcedureTypes } from '../control/controller-state.ts';
import type { Procedure } from '../control/procedure.ts';
import { canonicalJson } from '../core/canonical-json.ts';
import type { Event } from '../core/events.ts';
import type { JournalContents } from '../journal/read-journal.ts';

export interface Difference {
  readonly timeS: number;
  readonly what: 'actuators' | 'event';
  readonly recorded: string;
  readonly replayed: string;
}

export interface ReplayResult<P extends ProcedureTypes = ProcedureTypes> {
  readonly ticks: number;
  readonly events: number;
  /** The first few; empty when every decision is the same. */
  readonly differences: readonly Difference[];
  /** What the controller remembered after the last tick. */
  readonly last: ControllerState<P>;
}

const MOST_DIFFERENCES = 10;

export function replayJournal<P extends ProcedureTypes>(
  procedure: Procedure<P>,
  config: P['config'],
  { ticks, events }: Pick<JournalContents, 'ticks' | 'events'>,
): ReplayResult<P> {
  const differences: Difference[] = [];
  const replayed: Event[] = [];
  let state = procedure.start(config);
  for (const { frame, requests, actuators } of ticks) {
    const step = stepController(procedure, config, state, frame, requests);
    state = step.state;
    replayed.push(...step.events);
    const now = canonicalJson(state.commanded);
    const then = canonicalJson(actuators);
    if (now !== then && differences.length < MOST_DIFFERENCES) {
      differences.push({ timeS: frame.timeS, what: 'actuators', recorded: then, replayed: now });
    }
  }
  for (let index = 0; index < Math.max(events.length, replayed.length); index++) {
    const then = words(events[index]);
    const now = words(replayed[index]);
    if (now === then || differences.length >= MOST_DIFFERENCES) continue;
    const timeS = events[index]?.timeS ?? replayed[index]?.timeS ?? 0;
    differences.push({ timeS, what: 'event', recorded: then, replayed: now });
  }
  return { ticks: ticks.length, events: replayed.length, differences, last: state };
}

const words = (event: Event | undefined): string =>
  event === undefined ? 'nothing' : canonicalJson(event);
