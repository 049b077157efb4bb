/**
 * Uncertainty of an irradiance reading, of the light at the resin that it stands for, and the part
 * that a dose inherits. Scaling errors stay the same during a cure, and so scale the dose; a zero
 * error accumulates with time; noise averages down. What lies between sensor and resin (film,
 * evenness of the spot, distance) scales the dose as well; `cure/light-path.ts` says how much.
 */
import { FULL_SCALE_COUNTS } from '../core/frame.ts';
import { type Budget, type BudgetInput, budgetOf, within } from './budget.ts';
import { type ChannelSettings, LIVE_SPAN_RATIO, LIVE_ZERO_RATIO } from './channels.ts';
import { converterRows, randomCounts, stepLeftAfterAveraging } from './converter-parts.ts';
import { coverageFactor } from './student-t.ts';
import type { UncertaintySettings } from './uncertainty-settings.ts';

type Irradiance = Pick<ChannelSettings, 'irradiance'>;

const perCountOf = ({ irradiance }: Irradiance): number =>
  irradiance.fullWPerM2 / (LIVE_SPAN_RATIO * FULL_SCALE_COUNTS);

export function irradianceBudget(
  irradianceWPerM2: number,
  channels: Irradiance,
  uncertainty: UncertaintySettings,
): Budget {
  const perCount = perCountOf(channels);
  const counts = FULL_SCALE_COUNTS * LIVE_ZERO_RATIO + irradianceWPerM2 / perCount;
  return budgetOf([
    ...scalingRows(irradianceWPerM2, uncertainty),
    mismatchRow(irradianceWPerM2, uncertainty),
    ...spanRows(channels, uncertainty),
    ...converterRows(counts, perCount, uncertainty),
  ]);
}

/** Errors that are the same fraction of every reading. */
function scalingRows(
  irradianceWPerM2: number,
  { irradiance }: UncertaintySettings,
): readonly BudgetInput[] {
  const row = (name: string, spread: number): BudgetInput =>
    within({ name, value: 1, unit: '1', spread, sensitivity: irradianceWPerM2 });
  return [
    {
      ...row('calibration', irradiance.calibrationRatio),
      distribution: 'normal',
      degreesOfFreedom: irradiance.calibrationDegrees,
    },
    row('spectrum of the lamp', irradiance.spectrumRatio),
    row('angle and seat of the sensor', irradiance.placementRatio),
    row('temperature of the sensor', irradiance.temperatureRatio),
    row('drift since calibration', irradiance.driftRatio),
  ];
}

/** Apart from the others: a dose takes it off whole, because it is the same in all its cures. */
const mismatchRow = (irradianceWPerM2: number, { irradiance }: UncertaintySettings): BudgetInput =>
  within({
    name: 'adjusted at another wavelength',
    value: 1,
    unit: '1',
    spread: irradiance.mismatchRatio,
    sensitivity: irradianceWPerM2,
  });

/** Errors that are the same amount for every reading, as a part of full scale. */
function spanRows(
  channels: Irradiance,
  { irradiance: { zeroRatio, linearityRatio } }: UncertaintySettings,
): readonly BudgetInput[] {
  const sensitivity = channels.irradiance.fullWPerM2;
  return [
    within({ name: 'zero', value: 0, unit: '1', spread: zeroRatio, sensitivity }),
    within({ name: 'linearity', value: 0, unit: '1', spread: linearityRatio, sensitivity }),
  ];
}

/** What the sensor does not see of the light's way to the resin: relative half-widths. */
export interface PathSpreads {
  readonly filmRatio: number;
  readonly spotRatio: number;
  readonly distanceRatio: number;
}

/** From the sensor's reading to the resin; none where the unit file states no path. */
function pathRows(irradianceWPerM2: number, path: PathSpreads | null): readonly BudgetInput[] {
  if (path === null) return [];
  const row = (name: string, spread: number): BudgetInput =>
    within({ name, value: 1, unit: '1', spread, sensitivity: irradianceWPerM2 });
  return [
    row('cover film', path.filmRatio),
    row('evenness of the spot', path.spotRatio),
    row('distance of lamp and glass', path.distanceRatio),
  ];
}

/** Of the light at the resin, where the sensor reads `irradianceWPerM2` for this much of it. */
export function resinLightBudget(
  atResinWPerM2: number,
  irradianceWPerM2: number,
  channels: Irradiance,
  uncertainty: UncertaintySettings,
  path: PathSpreads,
): Budget {
  const ratio = atResinWPerM2 / irradianceWPerM2;
  const { parts } = irradianceBudget(irradianceWPerM2, channels, uncertainty);
  const scaled = parts.map((part) => ({ ...part, sensitivity: part.sensitivity * ratio }));
  return budgetOf([...scaled, ...pathRows(atResinWPerM2, path)]);
}

/** What a dose inherits from its readings, under the names that the dose uses. */
export interface InheritedByDose {
  /** Relative standard uncertainty common to the whole cure, including that of the clock. */
  readonly gainRatio: number;
  /** By how much an error that is the same in every cure of this unit may raise its readings. */
  readonly biasRatio: number;
  /** Standard uncertainty common to all readings. */
  readonly zeroWPerM2: number;
  /** Standard deviation of single readings about their mean. */
  readonly randomWPerM2: number;
  /** One-sided: number of standard uncertainties required above the target. */
  readonly coverageFactor: number;
}

export function inheritedByDose(
  channels: Irradiance,
  uncertainty: UncertaintySettings,
  path: PathSpreads | null,
): InheritedByDose {
  const { converter, acceptance } = uncertainty;
  const perCount = perCountOf(channels);
  const clock = { name: 'clock', value: 1, unit: '1', spread: converter.clockRatio };
  const gain = budgetOf([
    ...scalingRows(1, uncertainty),
    ...pathRows(1, path),
    within({ ...clock, sensitivity: 1 }),
  ]);
  const curve = { name: 'converter curve', value: 0, unit: 'counts', sensitivity: perCount };
  const zero = budgetOf([
    ...spanRows(channels, uncertainty),
    within({ ...curve, spread: converter.linearityCounts }),
  ]);
  const stepWPerM2 = perCount * stepLeftAfterAveraging(converter.noiseCounts);
  return {
    gainRatio: gain.standard,
    biasRatio: uncertainty.irradiance.mismatchRatio,
    zeroWPerM2: Math.hypot(zero.standard, stepWPerM2),
    randomWPerM2: perCount * randomCounts(converter.noiseCounts),
    // The gain dominates the dose's uncertainty; all other parts have infinite degrees of freedom.
    coverageFactor: coverageFactor(acceptance.coverage, gain.degreesOfFreedom, 'one-sided'),
  };
}
