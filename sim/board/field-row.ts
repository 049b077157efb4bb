/**
 * Light of a lamp that is moved along a crack: how much reaches the least lit resin of each field
 * from each place of the lamp. Where two fields overlap, resin is lit from both; beyond the spot
 * there is no light. Fields and places are the unit's and the job's, handed in.
 */
import type { LitRow } from '../plant/plant-state.ts';

export interface FieldRow {
  /** Fields, and the way from each to the next. */
  readonly count: number;
  readonly apartM: number;
  readonly fieldLengthM: number;
  /** Of the resin, from the edge of the first field on; where the pit lies in it. */
  readonly litLengthM: number;
  readonly pitM: number;
}

const POINT_M = 0.5e-3;

/** `ratioAt`: light at a distance from the axis, within the spot. */
export function litRowOf(
  { count, apartM, fieldLengthM, litLengthM, pitM }: FieldRow,
  spotRadiusM: number,
  ratioAt: (radiusM: number) => number,
): LitRow {
  const axesM = Array.from({ length: count }, (_, i) => fieldLengthM / 2 + i * apartM);
  const lightAt = (xM: number): readonly number[] =>
    axesM.map((axisM) => {
      const radiusM = Math.abs(xM - axisM);
      return radiusM <= spotRadiusM ? ratioAt(radiusM) : 0;
    });
  const leastLit = (axisM: number): readonly number[] => {
    const fromM = axisM - fieldLengthM / 2;
    const points = Math.ceil((Math.min(fromM + fieldLengthM, litLengthM) - fromM) / POINT_M);
    const lit = Array.from({ length: points + 1 }, (_, i) => lightAt(fromM + i * POINT_M));
    return lit.reduce((least, one) => (sum(one) < sum(least) ? one : least));
  };
  return { fieldRatios: axesM.map(leastLit), pitRatios: lightAt(pitM) };
}

const sum = (ratios: readonly number[]): number => ratios.reduce((all, one) => all + one, 0);
