/**
 * The lamp's life: hours since it was new, and its output over time. Outputs come from lamp
 * readings, from calibrations against a radiometer (which run the lamp at full drive), and from
 * cures at full drive. A new lamp starts again.
 */
import {
  type CareFacts,
  type CareRecord,
  happened,
  isAfter,
  isCalibration,
  isLampReading,
  lastService,
  repairsSince,
} from './care-records.ts';

const HOUR_S = 3600;

export interface LampOutput {
  readonly seq: number;
  readonly on: string;
  readonly irradianceWPerM2: number;
  /** Hours of light before this output. */
  readonly lampOnH: number;
  readonly from: 'reading' | 'calibration' | 'repair';
}

export interface LampLife {
  /** The day on which the lamp was new; null where no entry says. */
  readonly newOn: string | null;
  readonly lampOnH: number;
  /** Oldest first. */
  readonly outputs: readonly LampOutput[];
}

/**
 * Outputs that may be compared. The mean of a cure, in which the lamp warms up, is not a steady
 * reading against an instrument, so only the kind with more readings is returned.
 */
export function alikeOutputs(outputs: readonly LampOutput[]): readonly LampOutput[] {
  const cures = outputs.filter(({ from }) => from === 'repair');
  return 2 * cures.length > outputs.length
    ? cures
    : outputs.filter(({ from }) => from !== 'repair');
}

interface Step extends Omit<LampOutput, 'lampOnH' | 'irradianceWPerM2'> {
  readonly irradianceWPerM2: number | null;
  /** Light that this entry adds. */
  readonly addsS: number;
  /** Hours stated by a person; they replace the counted ones. */
  readonly statedH: number | null;
}

export function lampLifeOf(facts: CareFacts): LampLife {
  const lamp = lastService('lamp', facts);
  let lampOnH = 0;
  const outputs: LampOutput[] = [];
  for (const { irradianceWPerM2, addsS, statedH, ...step } of stepsSince(lamp, facts)) {
    lampOnH = statedH ?? lampOnH;
    if (irradianceWPerM2 !== null) outputs.push({ ...step, irradianceWPerM2, lampOnH });
    lampOnH += addsS / HOUR_S;
  }
  return { newOn: lamp?.body.on ?? null, lampOnH, outputs };
}

function stepsSince(lamp: CareRecord | null, facts: CareFacts): readonly Step[] {
  const ofThisLamp = happened(facts.care, facts.today).filter(
    ({ seq, body: { on } }) => lamp === null || isAfter({ seq, on }, lamp),
  );
  const care = ofThisLamp.flatMap((record) => stepOfCare(record));
  const repairs = repairsSince(lamp, facts).map(
    ({ seq, on, irradianceWPerM2, lampOnS }): Step => ({
      seq,
      on,
      irradianceWPerM2,
      from: 'repair',
      addsS: lampOnS,
      statedH: null,
    }),
  );
  return [...care, ...repairs].toSorted((a, b) =>
    a.on === b.on ? a.seq - b.seq : a.on < b.on ? -1 : 1,
  );
}

function stepOfCare(record: CareRecord): readonly Step[] {
  const { seq } = record;
  if (isLampReading(record)) {
    const { on, irradianceWPerM2, lampOnH: statedH } = record.body;
    return [{ seq, on, irradianceWPerM2, from: 'reading', addsS: 0, statedH }];
  }
  if (!isCalibration(record) || record.body.channel !== 'irradiance' || !record.body.passed)
    return [];
  const { on, points } = record.body;
  const irradianceWPerM2 = points.reduce((sum, point) => sum + point.reference, 0) / points.length;
  return [{ seq, on, irradianceWPerM2, from: 'calibration', addsS: 0, statedH: null }];
}
