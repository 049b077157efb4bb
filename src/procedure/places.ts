/**
 * Places along a break in which injector and lamp stand one after the other, and the fewest of them
 * that cover a length. `repair/work-plan.ts` says which lengths they cover.
 */

/** Places along a break, and the way from each to the next. */
export interface Places {
  readonly count: number;
  readonly apartM: number;
}

export interface WorkPlan {
  readonly positions: Places;
  readonly fields: Places;
  readonly endStop: boolean;
  /** From the lamp's axis to the farthest corner of its field; null where it stands over the pit. */
  readonly fieldRadiusM: number | null;
  /** Length of a crack that positions and fields reach; null where the lamp stands over the pit. */
  readonly coversM: number | null;
}

export const ONE: Places = { count: 1, apartM: 0 };
export const ONE_PLACE: WorkPlan = {
  positions: ONE,
  fields: ONE,
  endStop: false,
  fieldRadiusM: null,
  coversM: null,
};

/** Lengths come in millimetres with a decimal: less than this is no further place. */
const ROUNDING = 1e-9;

/** The fewest of `spanM` that cover `lengthM` and overlap by at least `overlapM`. */
export function placesAlong(lengthM: number, spanM: number, overlapM: number): Places {
  if (lengthM <= spanM) return ONE;
  const count = Math.ceil((lengthM - overlapM) / (spanM - overlapM) - ROUNDING);
  return { count, apartM: (lengthM - spanM) / (count - 1) };
}
