/** Hand-made care of an invented unit, for tests. */
import { readFileSync } from 'node:fs';
import type { CareBody, Service } from '../../src/care/care-entry.ts';
import type { CareFacts, CareRecord, RepairUse } from '../../src/care/care-records.ts';
import { type CareSettings, careSettingsSchema } from '../../src/care/care-settings.ts';
import { coverageFactor } from '../../src/signal/student-t.ts';

const file = new URL('../../src/app/defaults/care.json', import.meta.url);
export const CARE_FILE = JSON.parse(readFileSync(file, 'utf8'));
export const CARE: CareSettings = careSettingsSchema.parse(CARE_FILE);

export const tFactor = (degrees: number): number => coverageFactor(0.95, degrees, 'two-sided');

const COMMON = { unit: 'test unit', simulated: false } as const;

export const FIGURES = {
  pressure: { zeroPa: 0, fullPa: 400_000 },
  irradiance: { fullWPerM2: 400 },
  temperature: { aAdded: 0, bAdded: 0 },
};

export const facts = (given: Partial<CareFacts> = {}): CareFacts => ({
  today: '2024-06-01',
  figures: FIGURES,
  demo: false,
  care: [],
  repairs: [],
  ...given,
});

/** Written down on the day on which it was done, in the order given. */
export const logged = (...bodies: readonly CareBody[]): readonly CareRecord[] =>
  bodies.map((body, i) => ({ seq: i + 1, loggedOn: body.on, body }));

export const service = (on: string, what: Service, count: number | null = null): CareBody => ({
  what: 'service',
  ...COMMON,
  on,
  service: what,
  count,
  note: '',
});

export const lampReading = (
  on: string,
  irradianceWPerM2: number,
  lampOnH: number | null = null,
): CareBody => ({ what: 'lamp', ...COMMON, on, irradianceWPerM2, lampOnH });

export const healthTest = (
  on: string,
  given: { passed?: boolean; leak?: number; interlocks?: readonly [boolean, boolean] } = {},
): CareBody => ({
  what: 'health',
  ...COMMON,
  on,
  sealLeakPaPerS: given.leak ?? 5,
  sealLeakStandardPaPerS: 0.5,
  pumpDownS: 2,
  pumpDownToPa: 30_000,
  ultimatePa: 8_000,
  atmospherePa: 100_000,
  passed: given.passed ?? true,
  ...(given.interlocks !== undefined && {
    interlocks: {
      emergencyStop: given.interlocks[0],
      overPressureSwitch: given.interlocks[1],
    },
  }),
});

const REFERENCE = {
  name: 'demo gauge',
  certificate: 'demo-1',
  expandedUncertainty: 100,
  coverageFactor: 2,
  resolution: 10,
};
const UNCERTAINTY = {
  standard: 60,
  degreesOfFreedom: null,
  offsetStandard: 70,
  slopeStandard: 0.001,
};

export interface CalibrationGiven {
  readonly passed?: boolean;
  readonly validUntil?: string;
  readonly before?: { readonly zeroPa: number; readonly fullPa: number };
  readonly after?: { readonly zeroPa: number; readonly fullPa: number };
}

export const pressureCalibration = (on: string, given: CalibrationGiven = {}): CareBody => ({
  what: 'calibration',
  ...COMMON,
  on,
  channel: 'pressure',
  points: [
    { reference: 101_000, reading: 100_000, readings: 50, readingDeviation: 100 },
    { reference: 41_000, reading: 40_000, readings: 50, readingDeviation: 100 },
  ],
  checks: [],
  before: given.before ?? FIGURES.pressure,
  after: given.after ?? { zeroPa: 1_000, fullPa: 401_000 },
  reference: REFERENCE,
  uncertainty: UNCERTAINTY,
  validUntil: given.validUntil ?? '2024-12-31',
  passed: given.passed ?? true,
  refusals: given.passed === false ? ['The correction is too great.'] : [],
});

export const irradianceCalibration = (
  on: string,
  validUntil: string,
  reference = 180,
): CareBody => ({
  what: 'calibration',
  ...COMMON,
  on,
  channel: 'irradiance',
  points: [{ reference, reading: 200, readings: 50, readingDeviation: 0.2 }],
  checks: [],
  before: FIGURES.irradiance,
  after: { fullWPerM2: 2 * reference },
  reference: { ...REFERENCE, expandedUncertainty: 0.04 },
  uncertainty: { standard: 0.021, degreesOfFreedom: 40, offsetStandard: null, slopeStandard: null },
  validUntil,
  passed: true,
  refusals: [],
});

export const temperatureCalibration = (on: string, validUntil: string): CareBody => ({
  what: 'calibration',
  ...COMMON,
  on,
  channel: 'temperature',
  points: [
    { reference: 273.15, reading: 273.45, readings: 50, readingDeviation: 0.05 },
    { reference: 308.15, reading: 308.35, readings: 50, readingDeviation: 0.05 },
  ],
  checks: [],
  before: FIGURES.temperature,
  after: { aAdded: 2e-6, bAdded: 3e-7 },
  reference: { ...REFERENCE, expandedUncertainty: 0.1 },
  uncertainty: {
    standard: 0.08,
    degreesOfFreedom: null,
    offsetStandard: 0.08,
    slopeStandard: 0.002,
  },
  validUntil,
  passed: true,
  refusals: [],
});

/** So many repairs on one day, numbered from `seq` on. */
export const repairs = (
  count: number,
  on: string,
  given: Partial<RepairUse> = {},
): readonly RepairUse[] =>
  Array.from({ length: count }, (_, i) => ({
    seq: (given.seq ?? 1000) + i,
    on,
    lampOnS: 60,
    cures: 1,
    films: 1,
    irradianceWPerM2: null,
    ...(given.lampOnS !== undefined && { lampOnS: given.lampOnS }),
    ...(given.irradianceWPerM2 !== undefined && { irradianceWPerM2: given.irradianceWPerM2 }),
  }));
