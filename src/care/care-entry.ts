/**
 * The stored form of the unit's care: the body of a record entry of kind "care". One entry is one
 * calibration, health test, lamp reading or piece of service. Nothing is ever overwritten; the
 * state on a day is found by looking back from it. Quantities are SI, those of a calibration in the
 * unit of its channel (CHANNEL_UNITS). The person's name is personal data and is stored separately.
 */
import { z } from 'zod';
import {
  type Checked,
  checkSettings,
  choice,
  quantity,
  text,
  wholeNumber,
} from '../core/settings.ts';

export const CALIBRATED_CHANNELS = ['pressure', 'irradiance', 'temperature'] as const;
export type CalibratedChannel = (typeof CALIBRATED_CHANNELS)[number];

/**
 * Unit of points and corrections; the uncertainties of an irradiance are parts of the reading
 * instead.
 */
export const CHANNEL_UNITS = {
  pressure: { value: 'Pa', uncertainty: 'Pa' },
  irradiance: { value: 'W/m2', uncertainty: '1' },
  temperature: { value: 'K', uncertainty: 'K' },
} as const satisfies Record<CalibratedChannel, { value: string; uncertainty: string }>;

export const SERVICES = [
  'o-ring',
  'lamp-window',
  'cleaning',
  'film-roll',
  'lamp',
  'pressure-sensor',
  'irradiance-sensor',
  'glass-sensor',
] as const;
export type Service = (typeof SERVICES)[number];

/** Replacing a sensor ends the calibration of its channel. */
export const SENSOR_SERVICE = {
  pressure: 'pressure-sensor',
  irradiance: 'irradiance-sensor',
  temperature: 'glass-sensor',
} as const satisfies Record<CalibratedChannel, Service>;

const number = z.number({ error: 'a number' });
export const calendarDay = z.iso.date({ error: 'a date as YYYY-MM-DD' });

const common = {
  /** Name of the unit in its unit file: one folder may hold records of several units. */
  unit: text(40),
  /** Work on the simulated board says nothing about a real one. */
  simulated: z.boolean({ error: 'true or false' }),
  /** The day of the work; the entry's own time is when it was recorded. */
  on: calendarDay,
};

/** The journal of the procedure behind it, in the folder of records; absent where none was kept. */
const journal = z
  .strictObject({ file: text(200), sha256: z.string().regex(/^[0-9a-f]{64}$/) })
  .optional();

const point = z.strictObject({
  /** Value of the reference instrument. */
  reference: number,
  /** Mean of this unit's own readings, their number, and their standard deviation. */
  reading: number,
  readings: wholeNumber(2, 100_000, 'readings'),
  readingDeviation: quantity(0, 1e6, ''),
  /** Additional standard uncertainty of this point alone, such as the uniformity of a bath. */
  ownStandard: quantity(0, 1e5, '').optional(),
});
export type CalibrationPoint = z.infer<typeof point>;

/** UV-A and the violet beside it: what a radiometer may be certified for. */
export const REFERENCE_NM = { least: 315, most: 420 } as const;

export const referenceSchema = z.strictObject({
  name: text(80),
  certificate: text(80),
  /** As its certificate states it, with the coverage factor. */
  expandedUncertainty: quantity(0, 1e5, ''),
  coverageFactor: quantity(1, 5, ''),
  /** Last digit or division that a person reads, in the unit of the channel. */
  resolution: quantity(0, 1e5, ''),
  /** Wavelength for which a radiometer's certificate holds, where it was stated. */
  atNm: quantity(REFERENCE_NM.least, REFERENCE_NM.most, 'nm').optional(),
});
export type ReferenceInstrument = z.infer<typeof referenceSchema>;

const uncertainty = z.strictObject({
  /** Combined standard uncertainty of a corrected value, at the worst place between the points. */
  standard: quantity(0, 1e6, ''),
  /** Effective; null where practically infinite. */
  degreesOfFreedom: quantity(1, 1e9, '').nullable(),
  /**
   * For the straight line at the channel's zero, and for its slope; null where there is only a
   * factor.
   */
  offsetStandard: quantity(0, 1e6, '').nullable(),
  slopeStandard: quantity(0, 10, '').nullable(),
});
export type CalibrationUncertainty = z.infer<typeof uncertainty>;

const pressureLine = z.strictObject({ zeroPa: number, fullPa: number });
export type PressureLine = z.infer<typeof pressureLine>;
const irradianceFull = z.strictObject({ fullWPerM2: number });
export type IrradianceFull = z.infer<typeof irradianceFull>;
/** Added to the coefficients a and b of the thermistor's curve. */
const glassAdded = z.strictObject({ aAdded: number, bAdded: number });
export type GlassAdded = z.infer<typeof glassAdded>;

const calibrationOf = <C extends CalibratedChannel, T extends z.ZodType>(channel: C, line: T) =>
  z.strictObject({
    what: z.literal('calibration'),
    ...common,
    channel: z.literal(channel),
    /** Points from which the correction was made. */
    points: z.array(point).min(1).max(50),
    /** Points on which it was only checked. */
    checks: z.array(point).max(50),
    before: line,
    after: line,
    reference: referenceSchema,
    /** Null where the points do not determine it. */
    uncertainty: uncertainty.nullable(),
    /** The last day on which it is in force. */
    validUntil: calendarDay,
    passed: z.boolean(),
    /** Why it did not pass, one sentence each. */
    refusals: z.array(text(300)).max(20),
    journal,
  });

const calibration = z.discriminatedUnion('channel', [
  calibrationOf('pressure', pressureLine),
  calibrationOf('irradiance', irradianceFull),
  calibrationOf('temperature', glassAdded),
]);
export type Calibration = z.infer<typeof calibration>;

const healthTest = z.strictObject({
  what: z.literal('health'),
  ...common,
  /** Valve-off rise of the closed test piece, with its standard uncertainty. */
  sealLeakPaPerS: quantity(-100, 1e5, 'Pa/s'),
  sealLeakStandardPaPerS: quantity(0, 1e5, 'Pa/s'),
  /** From air to `pumpDownToPa`; null where it was not reached. */
  pumpDownS: quantity(0, 3600, 's').nullable(),
  pumpDownToPa: quantity(1000, 110_000, 'Pa'),
  ultimatePa: quantity(0, 110_000, 'Pa'),
  atmospherePa: quantity(50_000, 110_000, 'Pa'),
  /** Each contact was seen to open and to close; absent where the test did not try them. */
  interlocks: z
    .strictObject({
      emergencyStop: z.boolean().nullable(),
      overPressureSwitch: z.boolean().nullable(),
    })
    .optional(),
  passed: z.boolean(),
  journal,
});
export type HealthTest = z.infer<typeof healthTest>;

const lampReading = z.strictObject({
  what: z.literal('lamp'),
  ...common,
  /** At full drive, at the distance of the check. */
  irradianceWPerM2: quantity(0, 5000, 'W/m2'),
  /** Since the lamp was new, where known; otherwise counted from the repairs. */
  lampOnH: quantity(0, 1e6, 'h').nullable(),
});
export type LampReading = z.infer<typeof lampReading>;

const service = z.strictObject({
  what: z.literal('service'),
  ...common,
  service: choice(SERVICES),
  /** Films on a new roll; null for all other service. */
  count: wholeNumber(1, 100_000, 'films').nullable(),
  note: z.string({ error: 'a text of up to 300 characters' }).max(300),
});
export type ServiceDone = z.infer<typeof service>;

const careBody = z.union([calibration, healthTest, lampReading, service]);
export type CareBody = z.infer<typeof careBody>;

const SCHEMAS: Readonly<Record<CareBody['what'], z.ZodType<CareBody>>> = {
  calibration,
  health: healthTest,
  lamp: lampReading,
  service,
};

/** Checks the body of one entry; `where` names it in problems. */
export function parseCareBody(body: unknown, where: string): Checked<CareBody> {
  const kind = z.looseObject({ what: choice(['calibration', 'health', 'lamp', 'service']) });
  const kindChecked = checkSettings(kind, body, where);
  return kindChecked.ok ? checkSettings(SCHEMAS[kindChecked.value.what], body, where) : kindChecked;
}
