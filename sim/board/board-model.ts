/**
 * What the simulated board does by itself between host and drivers: the lease, and protection that
 * latches until the host clears it and its cause is gone. It is written independently from the
 * contract in hal/board.ts; the real firmware is in hal/firmware and passes the same test suite.
 */
import {
  type Actuators,
  FULL_SCALE_COUNTS,
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

/** What the board itself sees of the unit. */
export interface BoardSees {
  readonly switches: Switches;
  readonly glass: GlassSeen;
}

/** `warm`: not over its limit, and not far enough under it to clear a trip. */
export type GlassSeen = 'cool' | 'warm' | 'too-hot';

/** Counts by which the glass must be cooler again before its trip can be cleared. */
const COOL_AGAIN_COUNTS = 20;
/** Closer to a rail than this, the thermistor's wire is broken or shorted, and it shows nothing. */
const DEAD_WITHIN_COUNTS = 15;

/** A hotter thermistor reads lower. Before its first sample a converter shows nothing. */
export function glassSeen(counts: number | null, floor: number): GlassSeen {
  const shows =
    counts !== null &&
    counts >= DEAD_WITHIN_COUNTS &&
    counts <= FULL_SCALE_COUNTS - DEAD_WITHIN_COUNTS;
  if (!shows || counts < floor) return 'too-hot';
  return counts < floor + COOL_AGAIN_COUNTS ? 'warm' : 'cool';
}

const NONE: readonly Trip[] = [];

export const MODEL_START: BoardModel = { wanted: SAFE, leasedUntilStep: 0, trips: NONE };

/** After a watchdog reset, a board waits until the trip is cleared. */
export const restarted = (): BoardModel => ({ ...MODEL_START, trips: ['watchdog'] });

interface TripRow {
  readonly trip: Trip;
  readonly cause: (sees: BoardSees, wanted: Actuators) => boolean;
  /** Whether the cause still stands; stricter than the condition for a new trip. */
  readonly stands: (sees: BoardSees) => boolean;
  readonly without: (wanted: Actuators) => Actuators;
}

const withoutAir = (a: Actuators): Actuators => ({ ...a, pumpRatio: 0, ventOpen: true });
const withoutLamp = (a: Actuators): Actuators => ({ ...a, lampEnabled: false, lampRatio: 0 });

const TRIP_ROWS: readonly TripRow[] = [
  {
    trip: 'emergency-stop',
    cause: ({ switches }) => switches.emergencyStopPressed,
    stands: ({ switches }) => switches.emergencyStopPressed,
    without: () => SAFE,
  },
  {
    trip: 'over-pressure-switch',
    cause: ({ switches }) => switches.overPressureTripped,
    stands: ({ switches }) => switches.overPressureTripped,
    without: withoutAir,
  },
  {
    trip: 'shield',
    cause: ({ switches }, wanted) => !switches.shieldClosed && lampBurns(wanted),
    stands: ({ switches }) => !switches.shieldClosed,
    without: withoutLamp,
  },
  {
    trip: 'glass-hot',
    cause: ({ glass }, wanted) => glass === 'too-hot' && lampBurns(wanted),
    stands: ({ glass }) => glass !== 'cool',
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
export function clearTrips(model: BoardModel, sees: BoardSees): BoardModel {
  if (model.trips.length === 0 || !isSafe(model.wanted)) return model;
  const left = TRIP_ROWS.filter(({ trip, stands }) => model.trips.includes(trip) && stands(sees));
  return { ...model, trips: left.length === 0 ? NONE : left.map(({ trip }) => trip) };
}

/** Ends an expired lease and latches new trips. */
export function stepModel(model: BoardModel, sees: BoardSees, step: number): BoardModel {
  const wanted = step >= model.leasedUntilStep ? SAFE : model.wanted;
  const fresh = TRIP_ROWS.filter(
    ({ trip, cause }) => cause(sees, wanted) && !model.trips.includes(trip),
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
