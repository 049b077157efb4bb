/**
 * Schema of care.json, in trade units: when the unit's care falls due, how far a calibration may
 * reach, and what a healthy unit does. Each interval has a warning lead and a limit from which no
 * repair is started. An expired calibration and a lamp below its limit always block; no setting or
 * option lifts that.
 */
import { z } from 'zod';
import { choice, quantity, schemaName, text, wholeNumber } from '../core/settings.ts';
import { paFromKPa, wPerM2FromMWPerCm2 } from '../core/units.ts';

const days = (min: number, max: number) => wholeNumber(min, max, 'days');
const percent = (min: number, max: number) => quantity(min, max, '%');
const kPa = (min: number, max: number) => quantity(min, max, 'kPa');
const kelvin = (min: number, max: number) => quantity(min, max, 'K');

const dueDates = { everyDays: days(1, 1100), warnAheadDays: days(0, 200) };

const pressure = z
  .strictObject({
    ...dueDates,
    greatestCorrectionKPa: kPa(0.1, 40),
    greatestResidualKPa: kPa(0.1, 20),
    greatestStandardUncertaintyKPa: kPa(0.01, 10),
    leastApartKPa: kPa(10, 90),
  })
  .transform(({ everyDays, warnAheadDays, ...file }) => ({
    everyDays,
    warnAheadDays,
    limits: {
      greatestCorrection: paFromKPa(file.greatestCorrectionKPa),
      greatestResidual: paFromKPa(file.greatestResidualKPa),
      greatestStandardUncertainty: paFromKPa(file.greatestStandardUncertaintyKPa),
      leastApart: paFromKPa(file.leastApartKPa),
    },
  }));

const irradiance = z
  .strictObject({
    ...dueDates,
    greatestCorrectionPercent: percent(0.5, 50),
    greatestSpreadPercent: percent(0.1, 20),
    greatestStandardUncertaintyPercent: percent(0.1, 15),
  })
  .transform(({ everyDays, warnAheadDays, ...file }) => ({
    everyDays,
    warnAheadDays,
    limits: {
      greatestCorrectionRatio: file.greatestCorrectionPercent / 100,
      greatestSpreadRatio: file.greatestSpreadPercent / 100,
      greatestStandardUncertaintyRatio: file.greatestStandardUncertaintyPercent / 100,
    },
  }));

const temperature = z
  .strictObject({
    ...dueDates,
    greatestCorrectionK: kelvin(0.1, 10),
    greatestResidualK: kelvin(0.05, 5),
    greatestStandardUncertaintyK: kelvin(0.01, 2),
    leastApartK: kelvin(5, 60),
  })
  .transform(({ everyDays, warnAheadDays, ...file }) => ({
    everyDays,
    warnAheadDays,
    limits: {
      greatestCorrection: file.greatestCorrectionK,
      greatestResidual: file.greatestResidualK,
      greatestStandardUncertainty: file.greatestStandardUncertaintyK,
      leastApart: file.leastApartK,
    },
  }));

const health = z
  .strictObject({
    everyDays: days(1, 400),
    warnAheadDays: days(0, 100),
    blockAfterDays: days(0, 400).nullable(),
    /** Rise of the closed test piece, from isolation on. */
    greatestSealLeakPaPerS: quantity(0.1, 5000, 'Pa/s'),
    longestPumpDownS: quantity(0.5, 300, 's'),
    /** In per cent of the atmosphere. */
    highestUltimatePercent: percent(1, 60),
  })
  .transform(({ highestUltimatePercent, ...rest }) => ({
    ...rest,
    highestUltimateRatio: highestUltimatePercent / 100,
  }));

const lamp = z
  .strictObject({
    /** Irradiance of a new lamp at the glass at full drive. */
    referenceMWPerCm2: quantity(1, 500, 'mW/cm2'),
    warnPercent: percent(10, 100),
    blockPercent: percent(10, 100),
    everyH: quantity(10, 100_000, 'h'),
    warnAheadH: quantity(0, 10_000, 'h'),
    blockAfterH: quantity(0, 100_000, 'h').nullable(),
  })
  .refine(({ warnPercent, blockPercent }) => warnPercent >= blockPercent, {
    path: ['warnPercent'],
    error: 'at least blockPercent',
  })
  .transform(({ referenceMWPerCm2, warnPercent, blockPercent, ...rest }) => ({
    ...rest,
    referenceWPerM2: wPerM2FromMWPerCm2(referenceMWPerCm2),
    warnRatio: warnPercent / 100,
    blockRatio: blockPercent / 100,
  }));

const countOf = (min: number, max: number, unit: string) => wholeNumber(min, max, unit);

export const careSettingsSchema = z.strictObject({
  schema: schemaName('meniscus/care@1'),
  source: text(200),
  /** For a real unit that was never calibrated; a demo unit always only warns. */
  withoutCalibration: choice(['warn', 'block']),
  /**
   * After a calibration that did not pass: unit and reference disagree, so one of them is faulty.
   */
  afterFailedCalibration: choice(['warn', 'block']).default('block'),
  calibration: z.strictObject({ pressure, irradiance, temperature }),
  health,
  oRing: z.strictObject({
    everyRepairs: countOf(1, 10_000, 'repairs'),
    warnAheadRepairs: countOf(0, 1000, 'repairs'),
    blockAfterRepairs: countOf(0, 10_000, 'repairs').nullable(),
  }),
  lampWindow: z.strictObject({
    everyCures: countOf(1, 10_000, 'cures'),
    warnAheadCures: countOf(0, 1000, 'cures'),
    blockAfterCures: countOf(0, 10_000, 'cures').nullable(),
  }),
  cleaning: z.strictObject({
    everyDays: days(1, 400),
    warnAheadDays: days(0, 100),
    blockAfterDays: days(0, 400).nullable(),
  }),
  filmRoll: z.strictObject({
    /** On a new roll, where its entry does not say. */
    films: countOf(1, 100_000, 'films'),
    warnAtFilms: countOf(0, 10_000, 'films'),
  }),
  lamp,
  forecast: z
    .strictObject({
      /** Fewer readings, or over a shorter time, allow no conclusion. */
      leastReadings: countOf(3, 1000, 'readings'),
      leastSpanDays: days(1, 1000),
      confidencePercent: percent(80, 99.9),
      /** A straight line is not extrapolated farther than this. */
      farthestDays: days(1, 10_000),
    })
    .transform(({ confidencePercent, ...rest }) => ({
      ...rest,
      confidence: confidencePercent / 100,
    })),
});
export type CareSettings = z.infer<typeof careSettingsSchema>;
