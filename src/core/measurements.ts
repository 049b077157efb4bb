/**
 * The one-off measurements of a job, by name, unit and portion. This file decides nothing.
 */

/** What is cured: the resin in the break, and the resin that levels the pit. */
export const PORTIONS = ['fill', 'pit'] as const;
export type Portion = (typeof PORTIONS)[number];

/** Measured once for the whole job. */
export const JOB_MEASUREMENTS = [
  'atmospherePa',
  /** Of the unit's last complete job, with which this job's air was compared. */
  'airLastJobPa',
  'lampLastKnownWPerM2',
  /**
   * Vacuum to be drawn as a fraction of the measured atmosphere: the share of air that it leaves.
   */
  'airLeftRatio',
  'leakRatePaM3PerS',
  'leakRateUncertaintyPaM3PerS',
  /** Plateau of the pressure since the valve-off test began, above the pressure at isolation. */
  'risePlateauPa',
  'vacuumReachedPa',
  /** Of the data sheet's flow, as the pulls of this job showed it; 1.2 where it was more. */
  'pumpStrengthRatio',
  'pressureReachedPa',
  'doseCoverageFactor',
  /** Doses given on top of the first, because the resin was found soft. */
  'furtherCures',
  'allowedSpotOverPaneK',
  'allowedHeatingKPerS',
  'greatestSpotOverPaneK',
  'greatestHeatingKPerS',
  /** Thermistors at rest before the first light, above the air of the job sheet. */
  'glassOverAirK',
  'heatSinkOverAirK',
  /** What the lamp warmed them by in a cure, and what is usual for its light and power. */
  'glassWarmedK',
  'glassUsuallyWarmedK',
  'heatSinkWarmedK',
  'heatSinkUsuallyWarmedK',
  /** What the heat sink had cooled by, when the result was shown. */
  'heatSinkCooledK',
  /** Board and host clocks: how far they differ at most, as a share, and how that is known. */
  'clockOffAtMostRatio',
  'clockLooks',
  'clockComparedS',
  'longestFrameGapS',
  /** Time between late frames that counts for no dwell and no dose. */
  'uncountedS',
] as const;

/** Measured for one portion, or for both when one exposure cures them together. */
export const CURE_MEASUREMENTS = [
  'irradianceMeanWPerM2',
  'doseJPerM2',
  /** Of the light between gaps that passed. */
  'doseUncertaintyJPerM2',
  /** The dose that is shown at least: between gaps that passed, less zero and uncertainty. */
  'shownDoseJPerM2',
  'lampOnS',
  /** Board time at which the shield was seen open last before this cure. */
  'shieldSeenOpenS',
  /** What late frames left out, at most. */
  'doseUncountedJPerM2',
  'lampOnUncountedS',
  /** Interruptions of the lamp in which the reading fell to dark, and those that showed nothing. */
  'gapsPassed',
  'gapsFailed',
  /** Part of the dose for whose brightness only the light sensor stands. */
  'unconfirmedDoseJPerM2',
  /** The same target at the resin, below film and spot, and as the sensor must read it. */
  'targetAtResinJPerM2',
  'targetJPerM2',
  /** The dose that the depth of the break or pit requires. */
  'depthTargetJPerM2',
  /** The part of the pit's dose that reached the fill below, calculated from the pit's depth. */
  'throughPitJPerM2',
  'openResinDoseJPerM2',
  'openResinUnseenJPerM2',
  /** Daylight dose as a share of the dose that sets the resin. */
  'openResinShareRatio',
] as const;

export const MEASUREMENTS = [...JOB_MEASUREMENTS, ...CURE_MEASUREMENTS] as const;
export type JobMeasurement = (typeof JOB_MEASUREMENTS)[number];
export type CureMeasurement = (typeof CURE_MEASUREMENTS)[number];
export type Measurement = JobMeasurement | CureMeasurement;

/** A name and its portion; null when the name has none, and when both are cured together. */
export type MeasuredName =
  | { readonly name: JobMeasurement; readonly portion: null }
  | { readonly name: CureMeasurement; readonly portion: Portion | null };

export type MeasuredValue = MeasuredName & { readonly value: number };

/** Values of one portion, or of none, in the given order. */
export const measuredOfJob = (
  values: Readonly<Partial<Record<JobMeasurement, number>>>,
): readonly MeasuredValue[] =>
  Object.entries(values).map(([name, value]) => ({
    name: name as JobMeasurement,
    portion: null,
    value,
  }));

export const measuredOfCure = (
  portion: Portion | null,
  values: Readonly<Partial<Record<CureMeasurement, number>>>,
): readonly MeasuredValue[] =>
  Object.entries(values).map(([name, value]) => ({
    name: name as CureMeasurement,
    portion,
    value,
  }));
