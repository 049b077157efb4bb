/**
 * The checks of the self-test, with the pump off and the vent open: every sensor is valid, the
 * pressure sensor reads a possible atmosphere in which the profile's vacuum is useful, the lamp is
 * dark, no protection of the board has tripped. It only reports findings; the alarms decide what
 * they lead to.
 */
import {
  CHANNEL_ROWS,
  CHANNELS,
  type Channel,
  type Measured,
  type Reading,
} from '../../core/frame.ts';
import { type Phrase, type PhraseKey, tripPhrases } from '../../core/phrases.ts';
import { vacuumUseless } from '../altitude.ts';
import type { Profile } from '../profile.ts';

/**
 * Possible air pressures at a workplace: 60 kPa is about 4,200 m in the US Standard Atmosphere
 * 1976; sea-level records reach about 108 kPa (from memory).
 */
const ATMOSPHERE_LOWEST_PA = 60_000;
const ATMOSPHERE_HIGHEST_PA = 108_500;
/** More light than this with the lamp off, covered or not, means sun or a stuck lamp. */
const DARK_WPER_M2 = 100;

/** What is said of a sensor that cannot be believed. */
const LOST: Readonly<Record<Channel, PhraseKey>> = {
  pressure: 'pressure-sensor-says',
  irradiance: 'light-sensor-says',
  glassTemperature: 'glass-sensor-says',
  heatSinkTemperature: 'lamp-sensor-says',
  supplyVoltage: 'supply-sensor-says',
};

/** For a person to read; empty when all is well. */
export function selfTestFindings(
  reading: Reading,
  profile: Pick<Profile, 'vacuum' | 'sealCheck'>,
  greatestRatio: number,
): readonly Phrase[] {
  const findings = CHANNELS.flatMap((channel): Phrase[] => {
    const measured: Measured = reading[CHANNEL_ROWS[channel].reading];
    return measured.ok ? [] : [{ say: LOST[channel], with: { fault: { say: measured.fault } } }];
  });
  if (reading.trips.length > 0) {
    findings.push({ say: 'board-tripped', with: { trips: tripPhrases(reading.trips) } });
  }
  const { pressurePa, irradianceWPerM2 } = reading;
  if (pressurePa.ok) {
    const useless = isAtmosphere(pressurePa.value)
      ? vacuumUseless(pressurePa.value, profile, greatestRatio)
      : { say: 'not-at-air-pressure' as const };
    if (useless !== null) findings.push(useless);
  }
  if (irradianceWPerM2.ok && irradianceWPerM2.value > DARK_WPER_M2)
    findings.push({ say: 'strong-light' });
  return findings;
}

function isAtmosphere(pressurePa: number): boolean {
  return pressurePa >= ATMOSPHERE_LOWEST_PA && pressurePa <= ATMOSPHERE_HIGHEST_PA;
}
