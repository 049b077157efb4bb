/**
 * The figures of the guided procedures, as a file in trade units: pressures to hold, when a reading
 * counts as steady, how long it is averaged, how long plant and person may take. The step tables
 * decide which step uses which; calibration limits are set elsewhere.
 */
import { z } from 'zod';
import { quantity, schemaName, text, wholeNumber } from '../../core/settings.ts';
import { kFromCelsius, paFromKPa } from '../../core/units.ts';

const MINUTE_S = 60;
const seconds = (min: number, max: number) => quantity(min, max, 's');

/** A reading is steady once its slope over the whole window is below the limit. */
const steady = <const T extends z.ZodRawShape>(limit: T) =>
  z.strictObject({ windowS: seconds(2, 120), ...limit });

export const guidedSettingsSchema = z
  .strictObject({
    schema: schemaName('meniscus/guided@1'),
    source: text(200),
    /** How long a reading is averaged, up to the moment at which a person reads the reference. */
    averageS: seconds(1, 60),
    /** Time allowed for hand work, and for reading or entering a number. */
    personS: seconds(30, 3600),
    readS: seconds(10, 170),
    pressure: z.strictObject({
      heldKPaAbs: quantity(10, 80, 'kPa absolute'),
      checkKPaGauge: quantity(20, 180, 'kPa over atmosphere'),
      reachWithinS: seconds(2, 300),
      steady: steady({ kPaPerMin: quantity(0.05, 20, 'kPa/min') }),
      steadyWithinS: seconds(5, 600),
    }),
    light: z.strictObject({
      readings: wholeNumber(1, 10, 'readings'),
      steady: steady({ percentPerMin: quantity(0.05, 20, '% a minute') }),
      steadyWithinS: seconds(5, 800),
    }),
    temperature: z.strictObject({
      /**
       * The melting point of ice by definition of the scale, and the possible deviation of a bath.
       */
      iceC: quantity(-0.1, 0.1, 'degrees Celsius'),
      iceUncertaintyK: quantity(0.001, 0.2, 'K'),
      steady: steady({ kPerMin: quantity(0.01, 2, 'K/min') }),
      steadyWithinS: seconds(10, 1800),
    }),
    health: z.strictObject({
      pumpDownToKPaAbs: quantity(12, 90, 'kPa absolute'),
      /** Pumping ends here even while the pump could go deeper. */
      lowestKPaAbs: quantity(5.5, 40, 'kPa absolute'),
      reachWithinS: seconds(2, 300),
      ultimateWithinS: seconds(5, 600),
      settleS: seconds(0.5, 30),
      watchS: seconds(10, 300),
    }),
  })
  .transform(({ pressure, light, temperature, health, schema: _, ...rest }) => ({
    ...rest,
    pressure: {
      heldPa: paFromKPa(pressure.heldKPaAbs),
      checkGaugePa: paFromKPa(pressure.checkKPaGauge),
      reachWithinS: pressure.reachWithinS,
      steadyWithinS: pressure.steadyWithinS,
      windowS: pressure.steady.windowS,
      steadyPaPerS: paFromKPa(pressure.steady.kPaPerMin) / MINUTE_S,
    },
    light: {
      readings: light.readings,
      steadyWithinS: light.steadyWithinS,
      windowS: light.steady.windowS,
      steadyPerS: light.steady.percentPerMin / 100 / MINUTE_S,
    },
    temperature: {
      iceK: kFromCelsius(temperature.iceC),
      iceUncertaintyK: temperature.iceUncertaintyK,
      steadyWithinS: temperature.steadyWithinS,
      windowS: temperature.steady.windowS,
      steadyKPerS: temperature.steady.kPerMin / MINUTE_S,
    },
    health: {
      pumpDownToPa: paFromKPa(health.pumpDownToKPaAbs),
      lowestPa: paFromKPa(health.lowestKPaAbs),
      reachWithinS: health.reachWithinS,
      ultimateWithinS: health.ultimateWithinS,
      settleS: health.settleS,
      watchS: health.watchS,
    },
  }));
export type GuidedSettings = z.infer<typeof guidedSettingsSchema>;
