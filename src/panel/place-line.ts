/**
 * Where along a crack injector or lamp stand, and how far they are moved on. Nothing is said of a
 * break that is worked in one place. It decides nothing.
 */
import { PHASE_IDS, type PhaseId, partOf } from '../core/phases.ts';
import { filled } from '../core/phrases.ts';
import type { Catalogue } from './catalogue.ts';

export interface PlaceAlong {
  readonly place: number;
  readonly of: number;
  /** From each to the next. */
  readonly apartM: number;
}

export interface PlacesAlong {
  readonly position: PlaceAlong;
  readonly field: PlaceAlong;
}

const FIRST_AT_BREAK = PHASE_IDS.indexOf('set-bridge');
const UNDER_LAMP: ReadonlySet<PhaseId> = new Set<PhaseId>(['move-lamp', 'place-lamp', 'cure']);

const isUnderInjector = (phase: PhaseId): boolean =>
  PHASE_IDS.indexOf(phase) >= FIRST_AT_BREAK && ['hands', 'seal', 'cycles'].includes(partOf(phase));

/** Null where there is one place, and where none is in hand. */
export function placeWords(
  phase: PhaseId,
  { position, field }: PlacesAlong,
  { live }: Pick<Catalogue, 'live'>,
): string | null {
  const words = (what: 'position' | 'field', { place, of }: PlaceAlong): string | null =>
    of > 1 ? filled(live[what], { place: String(place), of: String(of) }) : null;
  if (UNDER_LAMP.has(phase)) return words('field', field);
  return isUnderInjector(phase) ? words('position', position) : null;
}

export const moveWords = ({ apartM }: PlaceAlong, { live }: Pick<Catalogue, 'live'>): string =>
  filled(live.moveOn, { mm: (1000 * apartM).toFixed(0) });
