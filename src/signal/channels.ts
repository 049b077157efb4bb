/**
 * The transfer function of each channel: counts to engineering units, and the settings that describe
 * the sensors. All inputs are ratiometric: the converter's reference is the sensors' supply, so
 * only the ratio of counts to full scale carries meaning and the supply's value cancels. Whether a
 * reading can be believed is decided in `decode.ts`.
 */
import { z } from 'zod';
import { type Actuators, type Channel, FULL_SCALE_COUNTS, lampBurns } from '../core/frame.ts';
import { quantity } from '../core/settings.ts';
import { paFromKPa, wPerM2FromMWPerCm2 } from '../core/units.ts';

/** Live-zero transmitters put 0 % at 0.5 V and 100 % at 4.5 V of a 5 V supply. */
export const LIVE_ZERO_RATIO = 0.1;
export const LIVE_SPAN_RATIO = 0.8;
/**
 * Half-way between dead (0 V) and live zero: below it the wire is broken, above the mirror image it
 * is shorted.
 */
const LIVE_LOWEST_RATIO = 0.05;
const LIVE_HIGHEST_RATIO = 0.95;
/** A divider this close to a rail means an open or shorted thermistor (below -45 or above 160 C). */
const DIVIDER_LOWEST_RATIO = 0.015;
const DIVIDER_HIGHEST_RATIO = 0.985;

export const channelsSchema = z
  .strictObject({
    pressure: z.strictObject({
      zeroKPaAbs: quantity(-5, 5, 'kPa absolute'),
      fullKPaAbs: quantity(300, 500, 'kPa absolute'),
    }),
    irradiance: z.strictObject({
      fullMWPerCm2: quantity(5, 500, 'mW/cm2'),
      /**
       * Wavelength of the light under which the sensor was adjusted, or for which the radiometer of
       * its calibration is certified; null where nobody stated it.
       */
      adjustedAtNm: quantity(315, 420, 'nm').nullable().default(null),
    }),
    thermistor: z.strictObject({
      /** Steinhart-Hart: 1/T = a + b ln R + c (ln R)^3. */
      a: quantity(1e-4, 1e-2, '1/K'),
      b: quantity(1e-5, 1e-3, '1/K'),
      c: quantity(1e-9, 1e-6, '1/K'),
      seriesOhm: quantity(100, 1_000_000, 'ohm'),
    }),
    /** The calibration of the glass sensor adds these to a and b of its type. */
    glassSensor: z
      .strictObject({
        aAdded: quantity(-2e-4, 2e-4, '1/K').default(0),
        bAdded: quantity(-2e-5, 2e-5, '1/K').default(0),
      })
      .prefault({}),
    supply: z.strictObject({ fullV: quantity(10, 60, 'V') }),
    staleAfterS: quantity(0.1, 2, 's'),
    frozenAfterS: quantity(2, 60, 's'),
  })
  .transform(({ pressure, irradiance, glassSensor, ...rest }) => ({
    ...rest,
    glassThermistor: {
      ...rest.thermistor,
      a: rest.thermistor.a + glassSensor.aAdded,
      b: rest.thermistor.b + glassSensor.bAdded,
    },
    pressure: { zeroPa: paFromKPa(pressure.zeroKPaAbs), fullPa: paFromKPa(pressure.fullKPaAbs) },
    irradiance: {
      fullWPerM2: wPerM2FromMWPerCm2(irradiance.fullMWPerCm2),
      adjustedAtNm: irradiance.adjustedAtNm,
    },
  }));
export type ChannelSettings = z.infer<typeof channelsSchema>;

/**
 * Value of a live-zero transmitter, linear from `zero` to `full`; null where the wire must be
 * faulty.
 */
function liveZeroValue(counts: number, zero: number, full: number): number | null {
  const ratio = counts / FULL_SCALE_COUNTS;
  if (ratio < LIVE_LOWEST_RATIO || ratio > LIVE_HIGHEST_RATIO) return null;
  return zero + ((ratio - LIVE_ZERO_RATIO) / LIVE_SPAN_RATIO) * (full - zero);
}

/** Absolute pressure in Pa, or null when the signal is outside its live range. */
export function pressurePaOf(counts: number, { pressure }: ChannelSettings): number | null {
  return liveZeroValue(counts, pressure.zeroPa, pressure.fullPa);
}

/** UV irradiance at the glass in W/m2, never below zero; null when outside the live range. */
export function irradianceWPerM2Of(counts: number, { irradiance }: ChannelSettings): number | null {
  const value = liveZeroValue(counts, 0, irradiance.fullWPerM2);
  return value === null ? null : Math.max(0, value);
}

type Curve = Pick<ChannelSettings['thermistor'], 'a' | 'b' | 'c'>;

/** Temperature in K of a thermistor on the low side of a divider; null when open or shorted. */
export const thermistorKOf = (counts: number, { thermistor }: ChannelSettings): number | null =>
  dividerK(counts, thermistor);

/** Temperature in K of the glass sensor, with its calibration. */
export const glassKOf = (counts: number, { glassThermistor }: ChannelSettings): number | null =>
  dividerK(counts, glassThermistor);

function dividerK(counts: number, thermistor: ChannelSettings['thermistor']): number | null {
  const ratio = counts / FULL_SCALE_COUNTS;
  if (ratio < DIVIDER_LOWEST_RATIO || ratio > DIVIDER_HIGHEST_RATIO) return null;
  return steinhartHartK((thermistor.seriesOhm * ratio) / (1 - ratio), thermistor);
}

/**
 * Temperature in K of a thermistor of `ohm` ohms. Steinhart and Hart, Deep-Sea Research 15 (1968)
 * 497-503 (from memory).
 */
export function steinhartHartK(ohm: number, { a, b, c }: Curve): number {
  const ln = Math.log(ohm);
  return 1 / (a + b * ln + c * ln ** 3);
}

/** Supply voltage in V through its divider. */
export function supplyVOf(counts: number, { supply }: ChannelSettings): number {
  return (counts / FULL_SCALE_COUNTS) * supply.fullV;
}

/** How one channel is read. */
export interface Transfer {
  /** Null where no sound sensor could give these counts. */
  readonly read: (counts: number, settings: ChannelSettings) => number | null;
  /**
   * Whether its counts must show noise now. Elsewhere they may rest for minutes with nothing wrong,
   * so nothing is concluded.
   */
  readonly mustMove: (commanded: Actuators) => boolean;
}

const never = (): boolean => false;

export const TRANSFERS: Readonly<Record<Channel, Transfer>> = {
  pressure: { read: pressurePaOf, mustMove: ({ ventOpen }) => !ventOpen },
  irradiance: { read: irradianceWPerM2Of, mustMove: lampBurns },
  glassTemperature: { read: glassKOf, mustMove: never },
  heatSinkTemperature: { read: thermistorKOf, mustMove: never },
  supplyVoltage: { read: supplyVOf, mustMove: never },
};
