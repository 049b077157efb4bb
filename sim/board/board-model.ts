/**
 * What the simulated board does by itself between host and drivers: the lease, and protection that
 * latches until the host clears it and its cause is gone. It is written independently from the
 * contract in hal/board.ts; the real firmware is in hal/firmware and passes the same test suite.
 */
import {
  type Actuators,
  isSafe,
  lampBurns,
  SAFE,
  type Switches,
  type Trip,
} from '../../src/core/frame.ts';

export interface BoardModel {
  /** The host's latest outputs, and the step up to which they hold. */
  readonly wanted: Actuators;
  readonly leasedUntilStep: number;
  readonly trips: readonly Trip[];
}

const NONE: readonly Trip[] = [];

export const MODEL_START: BoardModel = { wanted: SAFE, leasedUntilStep: 0, trips: NONE };

/** After a watchdog reset, a board waits until the trip is cleared. */
export const restarted = (): BoardModel => ({ ...MODEL_START, trips: ['watchdog'] });

interface TripRow {
  readonly trip: Trip;
  readonly cause: (switches: Switches, wanted: Actuators) => boolean;
  /** Whether the cause still stands; stricter than the condition for a new trip. */
  readonly stands: (switches: Switches) => boolean;
  readonly without: (wanted: Actuators) => Actuators;
}

const withoutAir = (a: Actuators): Actuators => ({ ...a, pumpRatio: 0, ventOpen: true });
const withoutLamp = (a: Actuators): Actuators => ({ ...a, lampEnabled: false, lampRatio: 0 });

const TRIP_ROWS: readonly TripRow[] = [
  {
    trip: 'emergency-stop',
    cause: ({ emergencyStopPressed }) => emergencyStopPressed,
    stands: ({ emergencyStopPressed }) => emergencyStopPressed,
    without: () => SAFE,
  },
  {
    trip: 'over-pressure-switch',
    cause: ({ overPressureTripped }) => overPressureTripped,
    stands: ({ overPressureTripped }) => overPressureTripped,
    without: withoutAir,
  },
  {
    trip: 'shield',
    cause: ({ shieldClosed }, wanted) => !shieldClosed && lampBurns(wanted),
    stands: ({ shieldClosed }) => !shieldClosed,
    without: withoutLamp,
  },
  { trip: 'watchdog', cause: () => false, stands: () => false, without: () => SAFE },
];

/** Holds the host's outputs for `leaseSteps` from `step`; null where they are invalid. */
export function takeOutputs(
  model: BoardModel,
  wanted: Actuators | null,
  step: number,
  leaseSteps: number,
): BoardModel {
  const { trips } = model;
  return wanted === null
    ? { wanted: SAFE, leasedUntilStep: step, trips }
    : { wanted, leasedUntilStep: step + leaseSteps, trips };
}

/** Clears what may be cleared; ignored while anything but the safe state is asked for. */
export function clearTrips(model: BoardModel, switches: Switches): BoardModel {
  if (model.trips.length === 0 || !isSafe(model.wanted)) return model;
  const left = TRIP_ROWS.filter(
    ({ trip, stands }) => model.trips.includes(trip) && stands(switches),
  );
  return { ...model, trips: left.length === 0 ? NONE : left.map(({ trip }) => trip) };
}

/** Ends an expired lease and latches new trips. */
export function stepModel(model: BoardModel, switches: Switches, step: number): BoardModel {
  const wanted = step >= model.leasedUntilStep ? SAFE : model.wanted;
  const fresh = TRIP_ROWS.filter(
    ({ trip, cause }) => cause(switches, wanted) && !model.trips.includes(trip),
  );
  if (fresh.length === 0 && wanted === model.wanted) return model;
  return { ...model, wanted, trips: [...model.trips, ...fresh.map(({ trip }) => trip)] };
}

/** What the board drives: the wanted outputs, less what has tripped. */
export function drivenBy({ wanted, trips }: BoardModel): Actuators {
  if (trips.length === 0) return wanted;
  return TRIP_ROWS.reduce(
    (driven, { trip, without }) => (trips.includes(trip) ? without(driven) : driven),
    wanted,
  );
}
