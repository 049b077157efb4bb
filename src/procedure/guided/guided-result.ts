/**
 * Turns the points of a guided procedure into its result, with the arithmetic of the care room. It
 * joins rooms that may not import each other: points from `guided/`, figures of the channels in
 * force, the fit of a rise from `procedure/`. Person, day and validity are added at the rim.
 */
import {
  calibrateIrradiance,
  calibratePressure,
  calibrateTemperature,
} from '../../care/calibration.ts';
import type { CalibrationResult, TwoPoints } from '../../care/calibration-result.ts';
import type {
  CalibrationPoint,
  GlassAdded,
  IrradianceFull,
  PressureLine,
} from '../../care/care-entry.ts';
import { type HealthMeasured, judgeHealth } from '../../care/health.ts';
import { FULL_SCALE_COUNTS } from '../../core/frame.ts';
import type { PointName } from '../../core/guided-events.ts';
import { glassKOf, LIVE_SPAN_RATIO } from '../../signal/channels.ts';
import { stepLeftAfterAveraging } from '../../signal/converter-parts.ts';
import { logOhmAt } from '../../signal/temperature-budget.ts';
import { addReading, NO_RISE, type RiseSums, riseOf } from '../rise.ts';
import type { GuidedConfig } from './guided-state.ts';
import type { Progress } from './step.ts';

type Part<Channel extends string, Line> = {
  readonly channel: Channel;
  readonly points: readonly CalibrationPoint[];
  readonly checks: readonly CalibrationPoint[];
  readonly before: Line;
} & CalibrationResult<Line>;

export type GuidedResult =
  | Part<'pressure', PressureLine>
  | Part<'irradiance', IrradianceFull>
  | Part<'temperature', GlassAdded>
  | ({
      readonly channel: 'health';
      readonly stoppedEarly: boolean;
      readonly passed: boolean;
      readonly refusals: readonly string[];
    } & HealthMeasured);

/** Null where points are missing because the procedure did not get that far. */
export function guidedResultOf(config: GuidedConfig, progress: Progress): GuidedResult | null {
  switch (config.procedure) {
    case 'pressure':
      return pressureResult(config, progress);
    case 'uv':
      return irradianceResult(config, progress);
    case 'temperature':
      return temperatureResult(config, progress);
    case 'health':
      return healthResult(config, progress);
  }
}

const pointsAt = ({ points }: Progress, ...names: PointName[]): readonly CalibrationPoint[] =>
  points
    .filter(({ at }) => names.includes(at))
    .map(({ reference, reading }) => ({
      reference,
      reading: reading.mean,
      readings: reading.n,
      readingDeviation: reading.standardDeviation,
      ownStandard: reading.ownStandard,
    }));

const twoOf = ([first, second]: readonly CalibrationPoint[]): TwoPoints | null =>
  first === undefined || second === undefined ? null : [first, second];

/**
 * What remains of the converter's step in a mean, as a step width: noise smooths the step, and a
 * signal that hardly moves is not smoothed at all. The observed scatter is used where it is less
 * than the unit file's noise.
 */
function stepLeft(
  points: readonly CalibrationPoint[],
  perCount: number,
  { unit }: GuidedConfig,
): number {
  const scatters = points.map(({ readingDeviation }) => (readingDeviation / perCount) ** 2);
  const leastCounts = Math.sqrt(Math.max(0, Math.min(...scatters) - 1 / 12));
  const noise = Math.min(leastCounts, unit.uncertainty.converter.noiseCounts);
  return Math.sqrt(12) * stepLeftAfterAveraging(noise) * perCount;
}

const perCountOf = (span: number): number => span / (LIVE_SPAN_RATIO * FULL_SCALE_COUNTS);

function pressureResult(config: GuidedConfig, progress: Progress): GuidedResult | null {
  const { unit, care, reference } = config;
  const points = twoOf([...pointsAt(progress, 'air'), ...pointsAt(progress, 'vacuum')]);
  if (points === null || reference === null) return null;
  const checks = pointsAt(progress, 'over');
  const { zeroPa, fullPa } = unit.channels.pressure;
  const before = { zeroPa, fullPa };
  const unitStep = stepLeft(points, perCountOf(fullPa - zeroPa), config);
  const { limits } = care.calibration.pressure;
  const result = calibratePressure({ points, checks, before, reference, unitStep, limits });
  return { channel: 'pressure', points, checks, before, ...result };
}

function irradianceResult(config: GuidedConfig, progress: Progress): GuidedResult | null {
  const { unit, care, reference } = config;
  const [first, ...others] = pointsAt(progress, 'light');
  if (first === undefined || reference === null) return null;
  const points = [first, ...others] as const;
  const { fullWPerM2 } = unit.channels.irradiance;
  const before = { fullWPerM2 };
  const unitStep = stepLeft(points, perCountOf(fullWPerM2), config);
  const { limits } = care.calibration.irradiance;
  const result = calibrateIrradiance({ points, before, reference, unitStep, limits });
  return { channel: 'irradiance', points, checks: [], before, ...result };
}

function temperatureResult(config: GuidedConfig, progress: Progress): GuidedResult | null {
  const { unit, care, reference } = config;
  const points = twoOf([...pointsAt(progress, 'ice'), ...pointsAt(progress, 'bath')]);
  if (points === null || reference === null) return null;
  const { thermistor, glassThermistor } = unit.channels;
  const before = {
    aAdded: glassThermistor.a - thermistor.a,
    bAdded: glassThermistor.b - thermistor.b,
  };
  const perCounts = points.map(({ reading }) => glassPerCountK(reading, unit.channels));
  const result = calibrateTemperature({
    points,
    checks: [],
    before,
    curve: thermistor,
    reference,
    unitStep: stepLeft(points, Math.max(...perCounts), config),
    limits: care.calibration.temperature.limits,
  });
  return { channel: 'temperature', points, checks: [], before, ...result };
}

function glassPerCountK(glassK: number, channels: GuidedConfig['unit']['channels']): number {
  const { glassThermistor } = channels;
  const ohm = Math.exp(logOhmAt(glassK, glassThermistor));
  const counts = (FULL_SCALE_COUNTS * ohm) / (ohm + glassThermistor.seriesOhm);
  const [above, below] = [glassKOf(counts + 0.5, channels), glassKOf(counts - 0.5, channels)];
  return above === null || below === null ? 0 : Math.abs(above - below);
}

/** Number of standard uncertainties between a leak and its limit: 95 % one-sided. */
const LEAK_COVERAGE = 1.645;
/**
 * From half of a 95 % range to a standard uncertainty; a watch has enough points for the normal
 * distribution.
 */
const HALF_RANGE_95 = 1.96;

function healthResult({ care }: GuidedConfig, progress: Progress): GuidedResult | null {
  const { health, atmospherePa } = progress;
  const rise = riseOf(
    health.rise.reduce<RiseSums>(
      (sums, { timeS, value }) => addReading(sums, timeS, value),
      NO_RISE,
    ),
  );
  if (rise === null || atmospherePa === null || health.ultimatePa === null) return null;
  const { low, best, high } = rise.slopePaPerS;
  const measured: HealthMeasured = {
    sealLeakPaPerS: best,
    sealLeakStandardPaPerS: (high - low) / 2 / HALF_RANGE_95,
    pumpDownS: health.pumpDownS,
    ultimatePa: health.ultimatePa,
    atmospherePa,
    interlocks: progress.interlocks,
  };
  const judged = judgeHealth(measured, care.health, LEAK_COVERAGE);
  return { channel: 'health', stoppedEarly: health.stoppedEarly, ...measured, ...judged };
}
