/**
 * Heat through the thickness of a pane at one place: finite volumes, each cell tied to the next
 * through both half cells in series, to the two faces, and to the same cell of a neighbour column.
 * A step is TR-BDF2 (trapezoid over part of the step, then second-order backward differences):
 * second order, and it damps what is too fast for the step, so that switching on a gun causes no
 * ringing. Both stages solve the same tridiagonal matrix. Stepping allocates nothing.
 */

import type { Layer } from './pane.ts';
import { createFace, type Face, lineariseFace, surfaceAtK } from './pane-face.ts';

/** Share of the step that the first stage covers; with this value both stages have one matrix. */
const GAMMA = 2 - Math.SQRT2;
const IMPLICIT = GAMMA / 2;
/** Weights of the three stages in the whole step: begin, gamma, end; together 1. */
const EXPLICIT = Math.SQRT2 / 4;
const STAGE_RATIO = EXPLICIT / IMPLICIT;

export interface HeatColumn {
  readonly cells: number;
  readonly widthM: Float64Array;
  readonly capacityJPerM2K: Float64Array;
  /** From a cell to the next; 0 for the last. */
  readonly nextWPerM2K: Float64Array;
  /** From a cell to the neighbour's. */
  readonly sideWPerM2K: Float64Array;
  /** Heat released in a cell, W/m2; set by the caller. */
  readonly sourceWPerM2: Float64Array;
  /** Temperatures at the beginning, the first stage and the end of the last step, K. */
  readonly beginK: Float64Array;
  readonly gammaK: Float64Array;
  readonly temperatureK: Float64Array;
  readonly outer: Face;
  readonly inner: Face;
  /** Mean over the last step, with the scheme's stage weights. */
  outerMeanK: number;
  innerMeanK: number;
  /** From the neighbour over the last step, J/m2. */
  sideJPerM2: number;
  readonly sweep: Float64Array;
  readonly inverse: Float64Array;
  readonly right: Float64Array;
}

const at = (values: Float64Array, i: number): number => values[i] as number;

/** `sidePerM2`: side conductance of a metre of thickness over the layer's conductivity, 1/m2. */
export function createColumn(
  layers: readonly Layer[],
  cellsALayer: number,
  emissivity: number,
  temperatureK: number,
  sidePerM2: number,
): HeatColumn {
  const cells = layers.length * cellsALayer;
  const layerOf = (i: number): Layer => layers[Math.floor(i / cellsALayer)] as Layer;
  const widthOf = (i: number): number => layerOf(i).thicknessM / cellsALayer;
  const halfM2KPerW = (i: number): number => widthOf(i) / 2 / layerOf(i).conductivityWPerMK;
  const filled = (value: (i: number) => number): Float64Array =>
    Float64Array.from({ length: cells }, (_, i) => value(i));
  return {
    cells,
    widthM: filled(widthOf),
    capacityJPerM2K: filled(
      (i) => widthOf(i) * layerOf(i).densityKgPerM3 * layerOf(i).heatCapacityJPerKgK,
    ),
    nextWPerM2K: filled((i) => (i + 1 < cells ? 1 / (halfM2KPerW(i) + halfM2KPerW(i + 1)) : 0)),
    sideWPerM2K: filled((i) => sidePerM2 * widthOf(i) * layerOf(i).conductivityWPerMK),
    sourceWPerM2: new Float64Array(cells),
    beginK: filled(() => temperatureK),
    gammaK: filled(() => temperatureK),
    temperatureK: filled(() => temperatureK),
    outer: createFace(emissivity, 1 / halfM2KPerW(0), temperatureK),
    inner: createFace(emissivity, 1 / halfM2KPerW(cells - 1), temperatureK),
    outerMeanK: temperatureK,
    innerMeanK: temperatureK,
    sideJPerM2: 0,
    sweep: new Float64Array(cells),
    inverse: new Float64Array(cells),
    right: new Float64Array(cells),
  };
}

/**
 * The neighbour must have made the same step before; a column without a neighbour passes itself.
 */
export function stepColumn(column: HeatColumn, neighbour: HeatColumn, dtS: number): void {
  const { cells, temperatureK, beginK, outer, inner } = column;
  for (let i = 0; i < cells; i++) beginK[i] = at(temperatureK, i);
  lineariseFace(outer, at(beginK, 0));
  lineariseFace(inner, at(beginK, cells - 1));
  const inertiaPerS = 1 / (IMPLICIT * dtS);
  factor(column, inertiaPerS);
  setFirstStage(column, neighbour, inertiaPerS);
  solve(column, column.gammaK);
  setSecondStage(column, neighbour, inertiaPerS);
  solve(column, temperatureK);
  meanSurfaces(column);
  if (neighbour !== column) bookSide(column, neighbour, dtS);
}

function factor(column: HeatColumn, inertiaPerS: number): void {
  const { cells, capacityJPerM2K, nextWPerM2K, sideWPerM2K, sweep, inverse } = column;
  const last = cells - 1;
  let before = 0;
  let sweepBefore = 0;
  for (let i = 0; i < cells; i++) {
    const next = at(nextWPerM2K, i);
    let diagonal = at(capacityJPerM2K, i) * inertiaPerS + before + next + at(sideWPerM2K, i);
    if (i === 0) diagonal += column.outer.intoCellWPerM2K;
    if (i === last) diagonal += column.inner.intoCellWPerM2K;
    const inverseHere = 1 / (diagonal - before * sweepBefore);
    inverse[i] = inverseHere;
    sweepBefore = next * inverseHere;
    sweep[i] = sweepBefore;
    before = next;
  }
}

/** C (Tg - T) / (d dt) = heat at the beginning + heat at the first stage. */
function setFirstStage(column: HeatColumn, neighbour: HeatColumn, inertiaPerS: number): void {
  const { cells, capacityJPerM2K, nextWPerM2K, sideWPerM2K, sourceWPerM2, right } = column;
  const { beginK, outer, inner } = column;
  const last = cells - 1;
  let fromBefore = 0;
  for (let i = 0; i < cells; i++) {
    const here = at(beginK, i);
    const toNext = i < last ? at(nextWPerM2K, i) * (here - at(beginK, i + 1)) : 0;
    const side = at(sideWPerM2K, i) * (at(neighbour.beginK, i) + at(neighbour.gammaK, i) - here);
    right[i] =
      at(capacityJPerM2K, i) * inertiaPerS * here +
      fromBefore -
      toNext +
      side +
      2 * at(sourceWPerM2, i);
    fromBefore = toNext;
  }
  right[0] = at(right, 0) + 2 * outer.intoCellWPerM2 - outer.intoCellWPerM2K * at(beginK, 0);
  right[last] =
    at(right, last) + 2 * inner.intoCellWPerM2 - inner.intoCellWPerM2K * at(beginK, last);
}

/** C (T' - T - r (Tg - T)) / (d dt) = heat at the end; the first stage's heat is in Tg - T. */
function setSecondStage(column: HeatColumn, neighbour: HeatColumn, inertiaPerS: number): void {
  const { cells, capacityJPerM2K, sideWPerM2K, sourceWPerM2, right, beginK, gammaK } = column;
  const last = cells - 1;
  for (let i = 0; i < cells; i++) {
    const here = at(beginK, i);
    right[i] =
      at(capacityJPerM2K, i) * inertiaPerS * (here + STAGE_RATIO * (at(gammaK, i) - here)) +
      at(sideWPerM2K, i) * at(neighbour.temperatureK, i) +
      at(sourceWPerM2, i);
  }
  right[0] = at(right, 0) + column.outer.intoCellWPerM2;
  right[last] = at(right, last) + column.inner.intoCellWPerM2;
}

/** The two sweeps of Thomas's algorithm over the factors. */
function solve(
  { cells, nextWPerM2K, sweep, inverse, right }: HeatColumn,
  into: Float64Array,
): void {
  let value = 0;
  let before = 0;
  for (let i = 0; i < cells; i++) {
    value = (at(right, i) + before * value) * at(inverse, i);
    into[i] = value;
    before = at(nextWPerM2K, i);
  }
  for (let i = cells - 2; i >= 0; i--) {
    value = at(into, i) + at(sweep, i) * value;
    into[i] = value;
  }
}

function meanSurfaces(column: HeatColumn): void {
  const { cells, beginK, gammaK, temperatureK, outer, inner } = column;
  const last = cells - 1;
  outer.surfaceK = surfaceAtK(outer, at(temperatureK, 0));
  inner.surfaceK = surfaceAtK(inner, at(temperatureK, last));
  column.outerMeanK =
    EXPLICIT * (surfaceAtK(outer, at(beginK, 0)) + surfaceAtK(outer, at(gammaK, 0))) +
    IMPLICIT * outer.surfaceK;
  column.innerMeanK =
    EXPLICIT * (surfaceAtK(inner, at(beginK, last)) + surfaceAtK(inner, at(gammaK, last))) +
    IMPLICIT * inner.surfaceK;
}

/** Heat from the neighbour over the step, with the scheme's stage weights. */
function bookSide(column: HeatColumn, neighbour: HeatColumn, dtS: number): void {
  const { cells, beginK, gammaK, temperatureK, sideWPerM2K } = column;
  let sideW = 0;
  for (let i = 0; i < cells; i++) {
    const early = at(neighbour.beginK, i) - at(beginK, i) + at(neighbour.gammaK, i) - at(gammaK, i);
    const late = at(neighbour.temperatureK, i) - at(temperatureK, i);
    sideW += at(sideWPerM2K, i) * (EXPLICIT * early + IMPLICIT * late);
  }
  column.sideJPerM2 = sideW * dtS;
}
