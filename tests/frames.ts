/** Hand-made frames and readings of a healthy unit at rest, for tests to change one thing in. */
import type { Frame, Measured, Reading, ReadingKey, Readings } from '../src/core/frame.ts';

export const measured = (value: number): Measured => ({ ok: true, value, takenAtS: 0 });
export const faulty = (fault: 'stale' | 'out-of-range' | 'implausible' | 'missing'): Measured => ({
  ok: false,
  fault,
});

export const ATMOSPHERE_PA = 100_600;

/** What is so where each sensor sits. */
export const HEALTHY_TRUTH: Readonly<Record<ReadingKey, number>> = {
  pressurePa: ATMOSPHERE_PA,
  irradianceWPerM2: 0,
  glassK: 296.15,
  heatSinkK: 298.15,
  supplyV: 12.5,
};

const HEALTHY_READINGS = Object.fromEntries(
  Object.entries(HEALTHY_TRUTH).map(([key, value]) => [key, measured(value)]),
) as Readings;

export const HEALTHY_READING: Reading = {
  ...HEALTHY_READINGS,
  sequence: 0,
  timeS: 0,
  hostTimeS: null,
  link: 'up',
  switches: { shieldClosed: true, overPressureTripped: false, emergencyStopPressed: false },
  pressed: [],
  ladder: 'released',
  trips: [],
  damaged: false,
  gap: false,
};

/** Counts of 100.6 kPa, dark, 25 C on both thermistors, 12.5 V. */
export const HEALTHY_FRAME: Frame = {
  sequence: 0,
  timeS: 0,
  hostTimeS: null,
  sampledAtS: 0,
  link: 'up',
  counts: {
    pressure: 308,
    irradiance: 102,
    glassTemperature: 512,
    heatSinkTemperature: 512,
    supplyVoltage: 639,
  },
  switches: { shieldClosed: true, overPressureTripped: false, emergencyStopPressed: false },
  pressed: [],
  ladder: 'released',
  trips: [],
  damaged: false,
  gap: false,
};
