/**
 * The state of one channel's calibration on a day. It is in force up to and including its last day;
 * from the next day on no repair is started. A shorter interval in care.json shortens an entry's
 * validity; a longer one does not extend it.
 */
import { dayAfter, daysFrom } from '../core/calendar.ts';
import { type CalibratedChannel, type Calibration, CHANNEL_UNITS } from './care-entry.ts';
import type { CareFacts, CareRecord } from './care-records.ts';
import type { CareSettings } from './care-settings.ts';
import type { DueItem } from './due-item.ts';
import { calibrationOf } from './in-force.ts';
import { type DueState, stateOf, worstOf } from './interval.ts';

export function dueCalibration(
  channel: CalibratedChannel,
  facts: CareFacts,
  settings: CareSettings,
): DueItem {
  const { inForce, failedSince, sensorChanged, otherFigures } = calibrationOf(channel, facts);
  const item = { item: `calibration-${channel}`, due: null } as const;
  const calibrate = `meniscus calibrate ${channel === 'irradiance' ? 'uv' : channel}`;
  if (inForce !== null) {
    return calibrated(channel, inForce, failedSince, facts, settings, calibrate);
  }
  if (sensorChanged !== null) {
    const { on } = sensorChanged.body;
    const words = `sensor changed on ${on}, not calibrated since`;
    return { ...item, state: 'blocked', words, since: on, whatToDo: calibrate };
  }
  if (otherFigures !== null) {
    const { on } = otherFigures.body;
    const words = `unit file changed since the calibration of ${on}`;
    const state = facts.demo ? 'overdue-warn' : 'blocked';
    return { ...item, state, words, since: on, whatToDo: calibrate };
  }
  const without = settings.withoutCalibration === 'block' && !facts.demo;
  const state = worstOf([without ? 'blocked' : 'overdue-warn', afterFailed(failedSince, settings)]);
  return {
    ...item,
    state,
    words: `figures of the unit file, not calibrated${failedSince === null ? '' : `; ${failed(failedSince)}`}`,
    since: null,
    whatToDo: calibrate,
  };
}

function calibrated(
  channel: CalibratedChannel,
  { body }: CareRecord<Calibration>,
  failedSince: CareRecord<Calibration> | null,
  { today }: CareFacts,
  settings: CareSettings,
  calibrate: string,
): DueItem {
  const { everyDays, warnAheadDays } = settings.calibration[channel];
  const due = [body.validUntil, dayAfter(body.on, everyDays)].toSorted()[0] ?? body.validUntil;
  const interval = { every: 0, warnAhead: warnAheadDays, blockAfter: 0 };
  const age = stateOf(daysFrom(due, today), interval);
  const state = worstOf([age, afterFailed(failedSince, settings)]);
  const expired = today > due;
  const until = expired ? `expired, was good until ${due}` : `good until ${due}`;
  return {
    item: `calibration-${channel}`,
    state,
    words: `${until}${failedSince !== null ? `; ${failed(failedSince)}` : expired ? '' : uncertaintyWords(channel, body)}`,
    since: body.on,
    due,
    whatToDo: state === 'in-order' ? '' : calibrate,
  };
}

/** What a failed attempt does to the calibration before it. */
function afterFailed(
  failedSince: CareRecord<Calibration> | null,
  { afterFailedCalibration }: CareSettings,
): DueState {
  if (failedSince === null) return 'in-order';
  return afterFailedCalibration === 'block' ? 'blocked' : 'overdue-warn';
}

const failed = ({ body }: CareRecord<Calibration>): string =>
  `the attempt of ${body.on} did not pass`;

const WRITE: Readonly<Record<CalibratedChannel, (standard: number) => string>> = {
  pressure: (pa) => `${(pa / 1000).toFixed(2)} kPa`,
  irradiance: (ratio) => `${(ratio * 100).toFixed(1)} %`,
  temperature: (k) => `${k.toFixed(2)} ${CHANNEL_UNITS.temperature.uncertainty}`,
};

const uncertaintyWords = (channel: CalibratedChannel, { uncertainty }: Calibration): string =>
  uncertainty === null ? '' : `, u = ${WRITE[channel](uncertainty.standard)}`;
