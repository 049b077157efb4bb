/** How a fault is provoked in a hand-made unit: the words that the provocations are written in. */
import type { ProcedureTypes } from '../../src/control/controller-state.ts';
import type { Procedure, ProcedureAlarms } from '../../src/control/procedure.ts';
import type { PhaseId } from '../../src/core/phases.ts';
import { REPAIR } from '../../src/procedure/repair/repair.ts';
import type { Repair } from '../../src/procedure/repair/repair-state.ts';
import { type Play, pass, passUntil, type Scene, type Unit } from '../steered-unit.ts';
import { repairIn, type Steering } from '../steering.ts';

export interface Provocation<P extends ProcedureTypes = Repair> {
  /** The unit in which the fault is tried, with its value where that is set before the job. */
  readonly start: (value: number) => Unit<P>;
  /** What is seen with the value of the row in its unit; 0 and 1 where something is so or not. */
  readonly play: (value: number, unit: Unit<P>) => Play;
  /** How far on either side of its limit the value is tried. */
  readonly step?: number;
  /** The value that is tried over the limit, where that is farther away. */
  readonly over?: number;
  /** The value runs by itself: when it comes to this limit, s after the play began. */
  readonly runsS?: (limit: number) => number;
  /** Until the value has come past its limit, by the unit's smoothing or arming, s. */
  readonly seenAfterS?: number;
  /** What is not known of that: the converter's steps, whole seconds. */
  readonly slackS?: number;
  /** How long the value is watched just under its limit, s. */
  readonly quietS?: number;
  /** Until the value has followed a change of the scene. */
  readonly followsS?: number;
  /** The value turns by itself: when it has gone back past the deadband, s after the play began. */
  readonly turnsBackS?: number;
  /** Pump, vent or lamp work before the fault, so that making safe shows. */
  readonly lively: boolean;
  /** What is seen once the cause is gone. */
  readonly sound?: Scene;
  /** The cause cannot go: the job never goes on. */
  readonly endures?: true;
}

/** A repair that no profile limits: what is left are the unit's own limits. */
export const UNLIMITED: Procedure<Repair> = limitedBy({});

/** A repair with these limits of profile and leg, and no others. */
export function limitedBy(
  limits: Partial<ProcedureAlarms['profile'] & ProcedureAlarms['heating']>,
): Procedure<Repair> {
  return {
    ...REPAIR,
    alarmsOf: (config, state, reading) => {
      const own = REPAIR.alarmsOf(config, state, reading);
      const none = (limitS: number | null) => (limitS === null ? null : Number.POSITIVE_INFINITY);
      return {
        ...own,
        heating: {
          ...own.heating,
          allowedSpotOverPaneK: Number.POSITIVE_INFINITY,
          allowedRateKPerS: Number.POSITIVE_INFINITY,
          ...limits,
        },
        profile: {
          lowestPa: 0,
          highestGaugePa: Number.POSITIVE_INFINITY,
          reachWithinS: none(own.profile.reachWithinS),
          answerWithinS: none(own.profile.answerWithinS),
          leakLimitPaM3PerS: Number.POSITIVE_INFINITY,
          lowestGlassK: 0,
          highestGlassK: Number.POSITIVE_INFINITY,
          longestCureS: Number.POSITIVE_INFINITY,
          ...limits,
        },
      };
    },
  };
}

/** The unit in a phase, by the unit's own limits where nothing else is said. */
export function inPhase(phase: PhaseId, steering: Steering = {}): () => Unit<Repair> {
  let unit: Unit<Repair> | null = null;
  return () => {
    unit ??= repairIn(phase, { procedure: UNLIMITED, ...steering });
    return unit;
  };
}

export const airOf = ({ state }: Unit<Repair>): number => state.procedure.atmospherePa ?? 0;
export const setPointOf = ({ state }: Unit<Repair>): number => state.setPointPa ?? 0;

export const celsius = (c: number): number => c + 273.15;

/** Something is so or is not, in this phase. */
export const soIn = (phase: PhaseId, scene: Scene): Provocation => ({
  start: inPhase(phase),
  play: (value) => (value > 0 ? scene : {}),
  lively: true,
});

/** Something is so or is not while the lamp burns. */
export const soInLight = (scene: Scene): Provocation => ({
  ...soIn('cure-fill', scene),
  start: litFor(0.5),
});

/** The cure of the fill, the lamp alight for so long, s. */
export function litFor(seconds: number, steering: Steering = {}): () => Unit<Repair> {
  return () => burning(inPhase('cure-fill', steering)(), seconds);
}

/** A unit at the beginning of a cure, lit so long with what this scene shows all the time. */
export function burning<P extends ProcedureTypes>(
  unit: Unit<P>,
  seconds: number,
  scene: Scene = {},
): Unit<P> {
  const lit = passUntil(unit, 2, scene, ({ step }) => step?.outputs.lampEnabled === true);
  return pass(lit, seconds, scene);
}
