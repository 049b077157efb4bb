/**
 * The unit's own settings: volumes, sensors and their errors, lamp, limits that no profile may
 * exceed, and alarms. The rooms define their parts; this file joins them into one file's schema. It
 * also checks whether a profile fits the unit.
 */
import { z } from 'zod';
import { quantity, type SettingsProblem, schemaName, text } from '../core/settings.ts';
import {
  celsiusFromK,
  kFromCelsius,
  kPaFromPa,
  paFromKPa,
  wPerM2FromMWPerCm2,
} from '../core/units.ts';
import { type LightPath, lightPathSchema, spreadsOf } from '../cure/light-path.ts';
import type { Profile } from '../procedure/profile.ts';
import { alarmSettingsSchema } from '../safety/alarm-settings.ts';
import { heatingSchema } from '../safety/heating-settings.ts';
import { lampHeatSchema } from '../safety/lamp-heat-settings.ts';
import { pumpSettingsSchema } from '../safety/pump-settings.ts';
import { type ChannelSettings, channelsSchema } from '../signal/channels.ts';
import { inheritedByDose } from '../signal/irradiance-budget.ts';
import { type UncertaintySettings, uncertaintySchema } from '../signal/uncertainty-settings.ts';

export const unitSettingsSchema = z
  .strictObject({
    schema: schemaName('meniscus/unit@1'),
    name: text(40),
    source: text(200),
    /**
     * Language of the display: built in, or the file of a catalogue. Records are kept in English.
     */
    language: text(200).default('en'),
    /** Chamber, hose and injector together. */
    chamberVolumeMl: quantity(1, 500, 'mL'),
    lamp: z.strictObject({
      /** Last measured output of the lamp; null when it is not known. */
      lastKnownMWPerCm2: quantity(0, 500, 'mW/cm2').nullable(),
      /**
       * Peak wavelength: the one against which radiometer and resin are checked, and which
       * determines how soon the light harms skin.
       */
      peakNm: quantity(315, 400, 'nm').default(365),
      /**
       * Output lost per kelvin of the heat sink, and its temperature at the known output: the mean
       * of a cure on a bench at 22 C. Data sheets of UV diodes state 0.2 to 0.4 %/K (from memory).
       */
      droopPercentPerK: quantity(0, 2, '%/K').default(0.3),
      knownAtHeatSinkC: quantity(0, 80, 'degrees Celsius').default(40),
    }),
    pump: pumpSettingsSchema,
    /** The air in the unit's last complete job; null when it is not known. */
    air: z
      .strictObject({ lastJobKPaAbs: quantity(50, 120, 'kPa absolute').nullable().default(null) })
      .prefault({}),
    limits: z.strictObject({
      lowestVacuumKPaAbs: quantity(1, 60, 'kPa absolute'),
      highestPressureKPaGauge: quantity(50, 190, 'kPa over atmosphere'),
      highestGlassC: quantity(25, 60, 'degrees Celsius'),
      longestLampOnS: quantity(60, 3600, 's'),
    }),
    heating: heatingSchema,
    lampHeat: lampHeatSchema,
    openResin: z
      .strictObject({
        /** Detection limit for light: the sensor's offset and a step of its converter, doubled. */
        leastSeenMWPerCm2: quantity(0.01, 1, 'mW/cm2').default(0.1),
        /** From this share of the resin's setting dose on, the display shows it; demo. */
        shownFromPercent: quantity(1, 100, '%').default(20),
      })
      .prefault({}),
    /** Null in older files: then nothing is known but the film. */
    lightPath: lightPathSchema.nullable().default(null),
    channels: channelsSchema,
    uncertainty: uncertaintySchema,
    alarms: alarmSettingsSchema,
  })
  .transform((file) => ({
    ...file,
    uncertainty: withMismatch(file),
  }))
  .transform(({ chamberVolumeMl, lamp, air, limits, openResin, ...rest }) => ({
    ...rest,
    /**
     * The uncertainty that a dose inherits from its sensor; computed once, because every tick uses
     * it.
     */
    doseUncertaintyTerms: inheritedByDose(
      rest.channels,
      rest.uncertainty,
      rest.lightPath === null ? null : spreadsOf(rest.lightPath),
    ),
    chamberVolumeM3: chamberVolumeMl * 1e-6,
    lampLastKnownWPerM2:
      lamp.lastKnownMWPerCm2 === null ? null : wPerM2FromMWPerCm2(lamp.lastKnownMWPerCm2),
    airLastJobPa: air.lastJobKPaAbs === null ? null : paFromKPa(air.lastJobKPaAbs),
    lampPeakNm: lamp.peakNm,
    lampDroopPerK: lamp.droopPercentPerK / 100,
    lampKnownAtK: kFromCelsius(lamp.knownAtHeatSinkC),
    leastSeenWPerM2: wPerM2FromMWPerCm2(openResin.leastSeenMWPerCm2),
    daylightShownFrom: openResin.shownFromPercent / 100,
    limits: {
      lowestVacuumPa: paFromKPa(limits.lowestVacuumKPaAbs),
      highestPressureGaugePa: paFromKPa(limits.highestPressureKPaGauge),
      highestGlassK: kFromCelsius(limits.highestGlassC),
      longestLampOnS: limits.longestLampOnS,
    },
  }));
/**
 * A sensor adjusted at another wavelength than the lamp's reads wrong by its responsivity's slope
 * between the two, in every cure alike. `light-chain.ts` refuses wavelengths that are too far apart
 * for a slope.
 */
function withMismatch({ uncertainty, lamp, channels, lightPath }: Lit): UncertaintySettings {
  const { adjustedAtNm } = channels.irradiance;
  const apartNm = Math.abs(lamp.peakNm - (adjustedAtNm ?? lamp.peakNm));
  const mismatchRatio = apartNm * (lightPath?.sensorSlopePerNm ?? 0);
  return { ...uncertainty, irradiance: { ...uncertainty.irradiance, mismatchRatio } };
}

interface Lit {
  readonly uncertainty: UncertaintySettings;
  readonly lamp: { readonly peakNm: number };
  readonly channels: ChannelSettings;
  readonly lightPath: LightPath | null;
}

export type UnitSettings = z.infer<typeof unitSettingsSchema>;

/** Every figure of the profile that the unit's limits do not allow; empty when it fits. */
export function profileOverLimits(
  profile: Profile,
  { limits }: UnitSettings,
  file: string,
): readonly SettingsProblem[] {
  const { vacuum, pressure, glass, cure } = profile;
  const pitLongestS = profile.pitCure?.longestS ?? 0;
  const checks: readonly (readonly [boolean, string, number, string])[] = [
    [
      vacuum.lowestPa >= limits.lowestVacuumPa,
      'vacuum.lowestKPaAbs',
      kPaFromPa(vacuum.lowestPa),
      `at least ${kPaFromPa(limits.lowestVacuumPa)} kPa absolute`,
    ],
    [
      pressure.highestGaugePa <= limits.highestPressureGaugePa,
      'pressure.highestKPaGauge',
      kPaFromPa(pressure.highestGaugePa),
      `at most ${kPaFromPa(limits.highestPressureGaugePa)} kPa over atmosphere`,
    ],
    [
      glass.highestK <= limits.highestGlassK,
      'glass.highestC',
      celsiusFromK(glass.highestK),
      `at most ${celsiusFromK(limits.highestGlassK)} degrees Celsius`,
    ],
    [
      cure.longestS <= limits.longestLampOnS,
      'cure.longestS',
      cure.longestS,
      `at most ${limits.longestLampOnS} s`,
    ],
    [
      pitLongestS <= limits.longestLampOnS,
      'pitCure.longestS',
      pitLongestS,
      `at most ${limits.longestLampOnS} s`,
    ],
  ];
  return checks.flatMap(([fits, path, value, accepted]) =>
    fits ? [] : [{ file, path, value: String(value), accepted: `${accepted}, the unit's limit` }],
  );
}
