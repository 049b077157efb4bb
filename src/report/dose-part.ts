/**
 * What one dose is of: a portion of the resin, and one field where a crack was cured field by field.
 * Claims, doses and attempts are matched by it.
 */
import type { Event } from '../core/events.ts';

export type CuredPortion = 'fill and pit' | 'fill' | 'pit';

/** From 1. */
export interface FieldOf {
  readonly number: number;
  readonly of: number;
}

export interface DosePart {
  readonly portion: CuredPortion;
  /** Null where one field was enough; records from before there were several do not state it. */
  readonly field?: FieldOf | null;
}

interface Named {
  readonly portion: string | null;
  readonly field?: FieldOf | null | undefined;
}

export const isSamePart = (one: Named, other: Named): boolean =>
  one.portion === other.portion && one.field?.number === other.field?.number;

/** Over which field the lamp stood, as a person said each time that it was moved on. */
export const fieldAt =
  (events: readonly Event[]) =>
  (timeS: number): number => {
    const last = events.findLast(
      (event) => event.kind === 'moved' && event.what === 'lamp' && event.timeS <= timeS,
    );
    return last?.kind === 'moved' ? last.to : 1;
  };
