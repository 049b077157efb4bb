/**
 * Puts calibrations into force: combines the unit file and the care record into the unit file as
 * used, in trade units, so that a journal's header holds everything a replay needs. A calibration
 * replaces the channel's figures and what is known of their errors. What it cannot determine (drift
 * with time, temperature, placement) stays as stated in the unit file. The lamp's last known output
 * is the latest measured one, and so is the air of the last job.
 */
import type { z } from 'zod';
import {
  CALIBRATED_CHANNELS,
  type CalibratedChannel,
  type Calibration,
} from '../../care/care-entry.ts';
import type { CareFacts } from '../../care/care-records.ts';
import { calibrationOf } from '../../care/in-force.ts';
import { lampLifeOf } from '../../care/lamp-history.ts';
import { unitSettingsSchema } from '../../control/unit-settings.ts';
import { daysFrom } from '../../core/calendar.ts';
import { type Checked, checkSettings } from '../../core/settings.ts';
import { kPaFromPa, mWPerCm2FromWPerM2 } from '../../core/units.ts';
import type { LoadedSettings } from './load-settings.ts';

type UnitFile = z.input<typeof unitSettingsSchema>;

export interface InForce {
  readonly channel: CalibratedChannel;
  readonly on: string;
  readonly validUntil: string;
  readonly certificate: string;
}

export interface UnitInForce {
  /** The unit file as used. */
  readonly file: UnitFile;
  readonly applied: readonly InForce[];
}

/** `unit`: a unit file that was checked. */
export function unitInForce(unit: unknown, facts: CareFacts): UnitInForce {
  const found = CALIBRATED_CHANNELS.flatMap((channel) => {
    const { inForce } = calibrationOf(channel, facts);
    return inForce === null ? [] : [inForce.body];
  });
  const file = found.reduce(applied, withAir(withLamp(unit as UnitFile, facts), facts));
  return {
    file,
    applied: found.map(({ channel, on, validUntil, reference: { certificate } }) => ({
      channel,
      on,
      validUntil,
      certificate,
    })),
  };
}

/** Settings as used. The caller checks whether the job suits the lamp in its present state. */
export function withCalibrations(
  loaded: LoadedSettings,
  facts: CareFacts,
): Checked<{ readonly settings: LoadedSettings; readonly applied: readonly InForce[] }> {
  const { file, applied } = unitInForce(loaded.inputs.unit, facts);
  const unit = checkSettings(unitSettingsSchema, file, 'unit file with its calibrations');
  if (!unit.ok) return unit;
  const config = { ...loaded.config, unit: unit.value };
  const inputs = { ...loaded.inputs, unit: file };
  return { ok: true, value: { settings: { ...loaded, config, inputs }, applied } };
}

/** From a standard uncertainty to the half-width that the unit file states: JCGM 100, 4.3.7. */
const halfWidth = (standard: number): number => Math.sqrt(3) * standard;

const YEAR_DAYS = 365;
/** As the unit file expects it. */
const years = ({ on, validUntil }: Calibration): number =>
  Math.min(5, Math.max(0.1, daysFrom(on, validUntil) / YEAR_DAYS));

function applied(file: UnitFile, calibration: Calibration): UnitFile {
  switch (calibration.channel) {
    case 'pressure':
      return withPressure(file, calibration);
    case 'irradiance':
      return withIrradiance(file, calibration);
    case 'temperature':
      return withTemperature(file, calibration);
  }
}

type Of<C extends CalibratedChannel> = Extract<Calibration, { channel: C }>;

function withPressure(file: UnitFile, calibration: Of<'pressure'>): UnitFile {
  const { after, uncertainty } = calibration;
  const spanPa = after.fullPa - after.zeroPa;
  const { offsetStandard = null, slopeStandard = null } = uncertainty ?? {};
  return {
    ...file,
    channels: {
      ...file.channels,
      pressure: { zeroKPaAbs: kPaFromPa(after.zeroPa), fullKPaAbs: kPaFromPa(after.fullPa) },
    },
    uncertainty: {
      ...file.uncertainty,
      pressure: {
        ...file.uncertainty.pressure,
        ...(offsetStandard !== null && {
          offsetPercentOfSpan: (100 * halfWidth(offsetStandard)) / spanPa,
        }),
        ...(slopeStandard !== null && { slopePercentOfReading: 100 * halfWidth(slopeStandard) }),
        calibratedEveryYears: years(calibration),
      },
    },
  };
}

/** A certificate states k = 2, and so does the unit file. */
const CERTIFICATE_K = 2;
const MANY_DEGREES = 10_000;

function withIrradiance(file: UnitFile, calibration: Of<'irradiance'>): UnitFile {
  const { after, uncertainty, reference } = calibration;
  const degrees = uncertainty?.degreesOfFreedom ?? null;
  return {
    ...file,
    channels: {
      ...file.channels,
      irradiance: {
        ...file.channels.irradiance,
        fullMWPerCm2: mWPerCm2FromWPerM2(after.fullWPerM2),
        // What an older calibration did not state, the unit file cannot know.
        adjustedAtNm: reference.atNm ?? null,
      },
    },
    uncertainty: {
      ...file.uncertainty,
      irradiance: {
        ...file.uncertainty.irradiance,
        ...(uncertainty !== null && {
          calibrationK2PercentOfReading: 100 * CERTIFICATE_K * uncertainty.standard,
          calibrationDegreesOfFreedom: degrees !== null && degrees <= MANY_DEGREES ? degrees : null,
        }),
        calibratedEveryYears: years(calibration),
      },
    },
  };
}

/**
 * The series resistor and leads were measured together with the sensor; their rows stay, which errs
 * on the high side.
 */
function withTemperature(file: UnitFile, calibration: Of<'temperature'>): UnitFile {
  const { after, uncertainty } = calibration;
  return {
    ...file,
    channels: { ...file.channels, glassSensor: { ...after } },
    uncertainty: {
      ...file.uncertainty,
      thermistor: {
        ...file.uncertainty.thermistor,
        ...(uncertainty !== null && { interchangeabilityK: halfWidth(uncertainty.standard) }),
      },
    },
  };
}

/** To a tenth: finer than any radiometer resolves, and the same lamp gives the same file. */
function withLamp(file: UnitFile, facts: CareFacts): UnitFile {
  const last = lampLifeOf(facts).outputs.at(-1);
  if (last === undefined) return file;
  const tenths = Math.round(10 * mWPerCm2FromWPerM2(last.irradianceWPerM2));
  return { ...file, lamp: { ...file.lamp, lastKnownMWPerCm2: tenths / 10 } };
}

/** To a tenth, like the lamp. */
function withAir(file: UnitFile, { repairs }: CareFacts): UnitFile {
  const airPa = repairs.findLast((repair) => repair.airPa !== undefined)?.airPa;
  if (airPa === undefined) return file;
  return { ...file, air: { lastJobKPaAbs: Math.round(10 * kPaFromPa(airPa)) / 10 } };
}
