/**
 * What a job measures once: by name and unit, and of which portion. This file decides nothing.
 */

/** What is cured: the resin in the break, and the resin that makes the pit level. */
export const PORTIONS = ['fill', 'pit'] as const;
export type Portion = (typeof PORTIONS)[number];

/** Of the job as a whole. */
export const JOB_MEASUREMENTS = [
  'atmospherePa',
  'lampLastKnownWPerM2',
  /** Vacuum that will be drawn over the measured atmosphere: the share of air that it leaves. */
  'airLeftRatio',
  'leakRatePaM3PerS',
  'leakRateUncertaintyPaM3PerS',
  /** Of the pressure after the valve-off test began, over that at isolation. */
  'risePlateauPa',
  'vacuumReachedPa',
  'pressureReachedPa',
  'doseCoverageFactor',
  'allowedSpotOverPaneK',
  'allowedHeatingKPerS',
  'greatestSpotOverPaneK',
  'greatestHeatingKPerS',
] as const;

/** Of one portion, or of both where one exposure cures them together. */
export const CURE_MEASUREMENTS = [
  'irradianceMeanWPerM2',
  'doseJPerM2',
  'doseUncertaintyJPerM2',
  'lampOnS',
  'targetJPerM2',
  /** What the depth of the break or pit asks for. */
  'depthTargetJPerM2',
  /** Of the pit's dose, what reached the fill below it: reckoned from the pit's depth. */
  'throughPitJPerM2',
  'openResinDoseJPerM2',
  'openResinUnseenJPerM2',
  /** Of what sets the resin. */
  'openResinShareRatio',
] as const;

export const MEASUREMENTS = [...JOB_MEASUREMENTS, ...CURE_MEASUREMENTS] as const;
export type JobMeasurement = (typeof JOB_MEASUREMENTS)[number];
export type CureMeasurement = (typeof CURE_MEASUREMENTS)[number];
export type Measurement = JobMeasurement | CureMeasurement;

/** A name and its portion; null where the name knows none, and where both are cured together. */
export type MeasuredName =
  | { readonly name: JobMeasurement; readonly portion: null }
  | { readonly name: CureMeasurement; readonly portion: Portion | null };

export type MeasuredValue = MeasuredName & { readonly value: number };

/** Values of one portion, or of none, in the order in which they are given. */
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
