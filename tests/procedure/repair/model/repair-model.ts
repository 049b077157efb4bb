/**
 * A model of the job that follows the unit's own record, event by event, and says where the unit
 * does what the order of work does not. It knows steps, the batch, and what another attempt may rest
 * on; it knows no pressure, no dose and no time.
 */

import type { Event } from '../../../../src/core/events.ts';
import type { Button } from '../../../../src/core/frame.ts';
import type { WayOn } from '../../../../src/procedure/repair/reentry.ts';
import {
  AS_BEFORE,
  FINISHES,
  GATE,
  type ModelStep,
  STEPS,
  STOPS,
  WHERE_IT_WAS,
} from './repair-steps.ts';

export interface Model {
  readonly step: string;
  readonly batch: 'idle' | 'running' | 'held' | 'over';
  /** The job may go on from being held, and in another attempt. */
  readonly mayGoOn: boolean;
  readonly resinInBreak: boolean;
  /** Where this attempt took up the work of one before it. */
  readonly entry: string | null;
  readonly legGrew: boolean;
  readonly legGrewAt: string | null;
  readonly ends: number;
}

export const AT_REST: Model = {
  step: 'self-test',
  batch: 'idle',
  mayGoOn: true,
  resinInBreak: false,
  entry: null,
  legGrew: false,
  legGrewAt: null,
  ends: 0,
};

/** What a person did in the tick. */
export interface Done {
  readonly pressed: readonly Button[];
  readonly interrupted: boolean;
}

export function rowOf(step: string): ModelStep {
  const row = STEPS[step];
  if (row === undefined) throw new Error(`the model has no row for ${step}: repair-steps.ts`);
  return row;
}

/** What led to an event, within its tick. */
interface Cause {
  readonly answer: 'yes' | 'no' | null;
  readonly goesOn: boolean;
}
type Followed = readonly [Model, Cause];

export function follow(model: Model, events: readonly Event[], done: Done): Model {
  const start: Followed = [model, { answer: null, goesOn: false }];
  return events.reduce<Followed>((so, event) => followOne(so, event, done), start)[0];
}

function followOne([model, cause]: Followed, event: Event, done: Done): Followed {
  switch (event.kind) {
    case 'answer':
      if (event.phase !== model.step) throw new Error(`${event.phase} was answered`);
      return [answered(model, event.answer), { ...cause, answer: event.answer }];
    case 'phase':
      return [entered(model, event.phase, cause), { answer: null, goesOn: false }];
    case 'hold-reason':
      return [heldFor(model, event.reason), cause];
    case 'batch':
      return batchMoved([model, cause], event.from, event.to, done);
    case 'end':
      return [ended(model, event), cause];
    default:
      return [model, cause];
  }
}

const PUTS_RESIN_IN = ['charge-injector', 'recharge'];

const answered = (model: Model, answer: 'yes' | 'no'): Model =>
  answer === 'yes' && PUTS_RESIN_IN.includes(model.step) ? { ...model, resinInBreak: true } : model;

const isMeasured = ({ step, resinInBreak }: Model): boolean => {
  const { legMeasured } = rowOf(step);
  return legMeasured === 'always' || (legMeasured === 'once-resin-is-in' && resinInBreak);
};

function heldFor(model: Model, reason: string): Model {
  const legGrew = model.legGrew || (reason === 'leg-grew' && isMeasured(model));
  return { ...model, legGrew, mayGoOn: reason !== 'resin-inside' };
}

function entered(model: Model, step: string, cause: Cause): Model {
  if (!mayEnter(model, cause).includes(step)) {
    const by = cause.goesOn ? 'going on' : (cause.answer?.toUpperCase() ?? 'itself');
    throw new Error(`${model.step} led to ${step} by ${by}: repair-steps.ts does not say so`);
  }
  const measures = model.legGrew && (cause.goesOn || step === 'measure-leg');
  return {
    ...model,
    step,
    batch: model.batch === 'idle' ? 'running' : model.batch,
    legGrew: measures ? false : model.legGrew,
    legGrewAt:
      measures && model.step !== 'measure-leg' ? measuredOnTheWayTo(model, cause) : model.legGrewAt,
  };
}

/** After a hold, to where the work stood; at the start of another attempt, to its own work. */
const measuredOnTheWayTo = (model: Model, { goesOn }: Cause): string | null =>
  goesOn ? goesOnAt(model) : model.entry;

const goesOnAt = ({ step }: Model): string => rowOf(step).goesOn ?? step;

function mayEnter(model: Model, { answer, goesOn }: Cause): readonly string[] {
  const { step, batch, entry, legGrew, legGrewAt } = model;
  if (batch === 'idle') return ['self-test'];
  if (goesOn) return [legGrew ? 'measure-leg' : goesOnAt(model)];
  const row = rowOf(step);
  const named = (answer === null ? row.byItself : row[answer]) ?? [];
  if (named.includes(WHERE_IT_WAS)) return [legGrewAt ?? step];
  if (named.includes(AS_BEFORE)) {
    // A leg that nobody has measured yet comes before the work.
    if (legGrew && entry !== null) return ['measure-leg'];
    return entry === 'set-bridge' ? [entry, GATE] : [entry ?? named[0] ?? step];
  }
  return named;
}

function batchMoved([model, cause]: Followed, from: string, to: string, done: Done): Followed {
  const yes = done.pressed.includes('yes');
  if (to === 'restarting' && (!yes || !model.mayGoOn)) throw new Error('it goes on with nobody');
  if (to === 'complete' && !leads(model, cause, FINISHES))
    throw new Error('it completed by itself');
  if (to === 'stopping' && !yes && !done.interrupted) throw new Error('it stopped by itself');
  if (cause.answer !== null && to === 'holding' && !leads(model, cause, STOPS)) {
    throw new Error(`${cause.answer} at ${model.step} holds the job`);
  }
  const goesOn = from === 'restarting' && to === 'running';
  return [
    { ...model, batch: from === 'idle' ? 'idle' : batchOf(to) },
    { ...cause, goesOn },
  ];
}

const leads = ({ step }: Model, { answer }: Cause, to: string): boolean =>
  answer !== null && (rowOf(step)[answer] ?? []).includes(to);

function batchOf(batch: string): Model['batch'] {
  if (batch === 'running') return 'running';
  return ['holding', 'held', 'restarting'].includes(batch) ? 'held' : 'over';
}

function ended(model: Model, { reason, why }: { reason: string; why: string }): Model {
  if (model.batch !== 'over') throw new Error('it ended before it was over');
  if (why.trim() === '') throw new Error(`it ended as ${reason} and does not say why`);
  return { ...model, ends: model.ends + 1 };
}

/**
 * Where another attempt takes up the work; `anew` at its beginning, null where there is none to be
 * had.
 */
export function attemptAfter(model: Model, way: WayOn): string | 'anew' | null {
  if (!model.mayGoOn) return null;
  if (!model.resinInBreak) return way === 'go-on' ? 'anew' : null;
  // Measuring a leg is no place in the work.
  const row = rowOf(model.step === 'measure-leg' ? (model.legGrewAt ?? model.step) : model.step);
  const at = way === 'go-on' ? row.again : row.cures;
  if (at !== AS_BEFORE) return at;
  if (model.entry === null) throw new Error(`resin at ${model.step} of a first attempt`);
  return way === 'go-on' ? model.entry : rowOf(model.entry).cures;
}

export const nextModel = (model: Model, at: string | 'anew', way: WayOn): Model => ({
  ...AT_REST,
  legGrew: way === 'go-on' && at !== 'anew' && (model.legGrew || model.step === 'measure-leg'),
  resinInBreak: model.resinInBreak,
  entry: at === 'anew' ? null : at,
});
