/**
 * Which calibration of a channel is in force on a day: the latest that passed, of the sensor that
 * is fitted, based on the figures that were in force then. A calibration based on figures other
 * than the unit file's belongs to another range or sensor and is ignored.
 */
import {
  type CalibratedChannel,
  type Calibration,
  SENSOR_SERVICE,
  type ServiceDone,
} from './care-entry.ts';
import {
  type CareFacts,
  type CareRecord,
  happened,
  isAfter,
  isCalibration,
  lastService,
} from './care-records.ts';

export interface ChannelCalibration {
  /** Stays the best known even when it has expired. */
  readonly inForce: CareRecord<Calibration> | null;
  /** A later attempt that did not pass. */
  readonly failedSince: CareRecord<Calibration> | null;
  /** Where none is in force: the sensor was replaced and not calibrated since. */
  readonly sensorChanged: CareRecord<ServiceDone> | null;
  /**
   * Where none is in force: the last passed calibration was based on figures other than the unit
   * file's.
   */
  readonly otherFigures: CareRecord<Calibration> | null;
}

export function calibrationOf(
  channel: CalibratedChannel,
  facts: Pick<CareFacts, 'care' | 'today' | 'figures'>,
): ChannelCalibration {
  const change = lastService(SENSOR_SERVICE[channel], facts);
  const done = happened(facts.care.filter(isCalibration), facts.today).filter(
    ({ seq, body: { on, channel: of } }) =>
      of === channel && (change === null || isAfter({ seq, on }, change)),
  );
  const passed = done.filter(({ body }) => body.passed);
  const inForce = lastOfOneLine(passed, facts.figures[channel]);
  const last = done.at(-1) ?? null;
  return {
    inForce,
    failedSince: last !== null && !last.body.passed ? last : null,
    sensorChanged: passed.length === 0 ? change : null,
    otherFigures: inForce === null ? (passed.at(-1) ?? null) : null,
  };
}

/**
 * Follows the chain from the unit file's figures: each calibration must begin where the file or its
 * predecessor ended.
 */
function lastOfOneLine(
  passed: readonly CareRecord<Calibration>[],
  file: Figures,
): CareRecord<Calibration> | null {
  let last: CareRecord<Calibration> | null = null;
  for (const record of passed) {
    const { before } = record.body;
    if (alike(before, file) || (last !== null && alike(before, last.body.after))) last = record;
  }
  return last;
}

type Figures = Calibration['before'];

/** Far above the rounding of a conversion to trade units and back, far below any correction. */
const ALIKE_RATIO = 1e-9;

function alike(one: Figures, other: Figures): boolean {
  const [a, b] = [Object.values(one), Object.values(other)];
  const size = Math.max(...[...a, ...b].map(Math.abs));
  return (
    a.length === b.length &&
    a.every((value, i) => Math.abs(value - (b[i] ?? Number.NaN)) <= size * ALIKE_RATIO)
  );
}
