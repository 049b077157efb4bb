/**
 * Vacuum and pressure of a job: the profile's, as far as the pump reaches them in this air, and
 * lowered for the rest of the job each time a leg has grown, and as a remedy lowers the pressure.
 */
import type { UnstampedEvent } from '../../core/events.ts';
import type { PhaseContext, ProcedureState } from '../phase.ts';
import { REACHED_WITHIN_PA } from '../phase-kinds.ts';
import type { Profile } from '../profile.ts';
import type { AirDemand } from '../regulation.ts';

type Loaded = Pick<ProcedureState, 'atmospherePa' | 'vacuumPa' | 'loadRatio' | 'pressureRatio'>;

/** Demo: half of what the leg did not bear. */
const LOWERED_RATIO = 0.5;

/** Absolute. */
export function vacuumPaOf(state: Loaded, { vacuum }: Pick<Profile, 'vacuum'>): number {
  const { atmospherePa, loadRatio } = state;
  const fullPa = state.vacuumPa ?? vacuum.setPointPa;
  return atmospherePa === null ? fullPa : atmospherePa - loadRatio * (atmospherePa - fullPa);
}

export const pressureGaugePaOf = (
  { loadRatio, pressureRatio }: Loaded,
  { pressure }: Pick<Profile, 'pressure'>,
): number => loadRatio * pressureRatio * pressure.setPointGaugePa;

export const toVacuum = (state: ProcedureState, profile: Profile): AirDemand => ({
  air: 'vacuum',
  setPointPa: vacuumPaOf(state, profile),
});

export function toPressure(state: ProcedureState, profile: Profile): AirDemand {
  const { atmospherePa } = state;
  if (atmospherePa === null) return { air: 'vented' };
  return { air: 'pressure', setPointPa: atmospherePa + pressureGaugePaOf(state, profile) };
}

export const isPressed = (state: ProcedureState, { profile, pressurePa }: PhaseContext): boolean =>
  state.atmospherePa !== null &&
  pressurePa !== null &&
  pressurePa - state.atmospherePa >= pressureGaugePaOf(state, profile) - REACHED_WITHIN_PA;

/** From now on half of what it was, and what the record says of it. */
export function lowered(
  walk: ProcedureState,
  profile: Pick<Profile, 'vacuum' | 'pressure'>,
): { readonly walk: ProcedureState; readonly events: readonly UnstampedEvent[] } {
  const gentler = { ...walk, loadRatio: LOWERED_RATIO * walk.loadRatio };
  const airPa = walk.atmospherePa ?? 0;
  const adapted = (
    what: 'vacuum' | 'pressure',
    askedPa: number,
    givenPa: number,
  ): UnstampedEvent => ({ kind: 'adapted', what, askedPa, givenPa, why: 'a leg grew' });
  return {
    walk: gentler,
    events: [
      adapted('vacuum', profile.vacuum.setPointPa, vacuumPaOf(gentler, profile)),
      adapted(
        'pressure',
        airPa + profile.pressure.setPointGaugePa,
        airPa + pressureGaugePaOf(gentler, profile),
      ),
    ],
  };
}
