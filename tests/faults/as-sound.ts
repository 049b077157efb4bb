/**
 * A fault that has had no effect yet: as long as every frame is that of the sound job, so is all
 * that the controller and the person did. Where the plant, too, is as it was at a later moment of
 * the same job, the rest is the case that begins there, and need not be run twice.
 */
import { isDeepStrictEqual } from 'node:util';
import { type FaultKind, faultRow } from '../../sim/faults/fault-kinds.ts';
import type { PlantState } from '../../sim/plant/plant-state.ts';
import type { Moment } from './moments.ts';
import type { Row } from './row.ts';
import type { Log } from './run-job.ts';

/** Kinds whose effect depends on when they began. */
const TIMED: readonly FaultKind[] = ['supply-dips', 'hose-splits', 'lamp-flickers'];
/** The others remember, draw or count from their beginning. */
const STEADY_PLACES = ['plant', 'actuator', 'switch', 'person'];

/** The same fault begun later does the same from then on. */
export const isSteady = ({ faults }: Row): boolean =>
  faults.every(
    ({ kind, begins, lastsS }) =>
      begins === undefined &&
      lastsS === undefined &&
      !TIMED.includes(kind) &&
      STEADY_PLACES.includes(faultRow(kind).actsOn),
  );

/** After each tick: the moment that was come to with nothing changed, or null. */
export type Join = (log: Log, plant: PlantState) => Moment | null;

export function joining(first: Moment): Join {
  let same = true;
  return ({ ticks }, plant) => {
    if (!same) return null;
    const n = ticks.length - 1;
    same = isDeepStrictEqual(ticks[n]?.frame, first.sound.ticks[n]?.frame);
    if (!same) return null;
    const at = first.later().find(({ tick }) => tick === ticks.length);
    return at !== undefined && isDeepStrictEqual(plant, at.plant) ? at : null;
  };
}
