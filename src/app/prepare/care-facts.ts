/**
 * The unit's care for report and certificate: which calibration of each channel was in force,
 * against what reference, with what uncertainty and until when, and the state of everything else
 * that falls due.
 */
import {
  CALIBRATED_CHANNELS,
  type CalibratedChannel,
  type Calibration,
} from '../../care/care-entry.ts';
import type { CareFacts } from '../../care/care-records.ts';
import { CARE_ITEMS, type DueItem } from '../../care/due-item.ts';
import { calibrationOf } from '../../care/in-force.ts';
import type { DocumentFacts } from '../../document/facts.ts';

type CalibrationRows = NonNullable<DocumentFacts['calibrations']>;
type CareRows = NonNullable<DocumentFacts['care']>;

/** A standard uncertainty or its expanded one, in the trade's unit. */
const SHOWN: Readonly<Record<CalibratedChannel, (value: number) => string>> = {
  pressure: (pa) => `${(pa / 1000).toPrecision(2)} kPa`,
  irradiance: (part) => `${(100 * part).toPrecision(2)} % of the reading`,
  temperature: (k) => `${k.toPrecision(2)} K`,
};

export function calibrationRows(facts: CareFacts): CalibrationRows {
  return CALIBRATED_CHANNELS.flatMap((channel) => {
    const { inForce } = calibrationOf(channel, facts);
    return inForce === null ? [] : [rowOf(inForce.body, facts.today)];
  });
}

function rowOf(body: Calibration, today: string): CalibrationRows[number] {
  const { channel, on, validUntil, reference, uncertainty, simulated } = body;
  const shown = SHOWN[channel];
  const { name, certificate, expandedUncertainty, coverageFactor } = reference;
  const words = [
    ...(today > validUntil ? [`overdue since ${validUntil}`] : []),
    ...(simulated ? ['demo: simulated unit'] : []),
  ];
  return {
    channel,
    on,
    due: validUntil,
    // Names of persons are kept where they can be removed, not in a journal.
    by: null,
    reference: `${name}, certificate ${certificate} (U = ${shown(expandedUncertainty)}, k = ${coverageFactor})`,
    standardUncertainty: uncertainty === null ? 'not stated' : shown(uncertainty.standard),
    words: words.join('; '),
  };
}

export const careRows = (items: readonly DueItem[]): CareRows =>
  items.map((row) => ({
    item: row.item,
    what: CARE_ITEMS[row.item].label,
    state: row.words,
    due: dueOf(row),
  }));

/** Something that was never logged is due at once, whatever its state says of the next time. */
const dueOf = ({ state, since }: DueItem): CareRows[number]['due'] =>
  state === 'due-soon' && since === null ? 'never-done' : state;
