/**
 * How the report writes numbers for people: always with the unit, pressures always marked gauge or
 * absolute, trade units in brackets as a courtesy. A tongue gives them its decimal sign.
 */

import type { Measurement } from '../core/measurements.ts';
import {
  celsiusFromK,
  inHgFromPa,
  kPaFromPa,
  mJPerCm2FromJPerM2,
  mWPerCm2FromWPerM2,
  psiFromPa,
} from '../core/units.ts';

/** Keeps a number and its unit on one line. */
const GAP = '\u00a0';

export const kPaAbs = (pa: number): string => `${kPaFromPa(pa).toFixed(1)}${GAP}kPa${GAP}abs`;

export const kPaGauge = (pa: number): string => `${kPaFromPa(pa).toFixed(1)}${GAP}kPa${GAP}gauge`;

/** Above or below the local atmosphere, as the trade reads its gauges. */
export function gaugeWords(pa: number, atmospherePa: number): string {
  const gaugePa = pa - atmospherePa;
  if (gaugePa < 0) return `${inHgFromPa(-gaugePa).toFixed(1)} inHg of vacuum, gauge`;
  return `${psiFromPa(gaugePa).toFixed(1)} psi gauge`;
}

/** Absolute first; the gauge reading only where the job's zero is known. */
export const pressureWords = (pa: number, atmospherePa: number | null): string =>
  atmospherePa === null ? kPaAbs(pa) : `${kPaAbs(pa)} (${gaugeWords(pa, atmospherePa)})`;

export const joulesPerCm2 = (jPerM2: number): number => mJPerCm2FromJPerM2(jPerM2) / 1000;
export const doseWords = (jPerM2: number): string =>
  `${joulesPerCm2(jPerM2).toFixed(2)}${GAP}J/cm²`;
const smallDoseWords = (jPerM2: number): string =>
  `${mJPerCm2FromJPerM2(jPerM2).toFixed(0)}${GAP}mJ/cm²`;
const kelvinWords = (k: number): string => `${k.toFixed(1)}${GAP}K`;
const heatingWords = (kPerS: number): string => `${(kPerS * 60).toFixed(1)}${GAP}K/min`;
export const lightWords = (wPerM2: number): string =>
  `${mWPerCm2FromWPerM2(wPerM2).toFixed(1)}${GAP}mW/cm²`;
export const celsiusWords = (k: number): string => `${celsiusFromK(k).toFixed(1)}${GAP}°C`;
export const secondsWords = (s: number): string => `${s.toFixed(0)}${GAP}s`;
const hundredthsWords = (s: number): string => `${s.toFixed(2)}${GAP}s`;
export const leakWords = (paM3PerS: number): string =>
  `${(paM3PerS * 1000).toFixed(2)}${GAP}mPa·m³/s`;

export const shareWords = (ratio: number): string => `${(100 * ratio).toFixed(0)}${GAP}%`;
/** A pressure difference, neither absolute nor gauge. */
export const risePaWords = (pa: number): string => `${kPaFromPa(pa).toFixed(2)}${GAP}kPa`;

/** Minutes and seconds since the board was opened. */
export function clockWords(s: number): string {
  const whole = Math.round(s);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}

/** '14 h 3 min', or '25 min' below an hour. */
export function hoursWords(s: number): string {
  const minutes = Math.round(s / 60);
  const hours = Math.floor(minutes / 60);
  return `${hours === 0 ? '' : `${hours} h `}${minutes % 60} min`;
}

export const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** 'vacuum-too-deep' to 'vacuum too deep'. */
export const plainWords = (name: string): string => name.replaceAll('-', ' ');

/** An id that a record of another version may hold is printed in plain words. */
export const nameIn = (names: Readonly<Record<string, string>>, id: string): string =>
  names[id] ?? plainWords(id);

/** A measurement with its unit. */
export const measuredValue = (name: Measurement, value: number): string =>
  MEASURED_WRITERS[name](value);

const MEASURED_WRITERS: Readonly<Record<Measurement, (value: number) => string>> = {
  atmospherePa: kPaAbs,
  airLastJobPa: kPaAbs,
  pumpStrengthRatio: shareWords,
  lampLastKnownWPerM2: lightWords,
  airLeftRatio: shareWords,
  furtherCures: String,
  leakRatePaM3PerS: leakWords,
  leakRateUncertaintyPaM3PerS: leakWords,
  risePlateauPa: risePaWords,
  vacuumReachedPa: kPaAbs,
  pressureReachedPa: kPaAbs,
  irradianceMeanWPerM2: lightWords,
  doseJPerM2: doseWords,
  doseUncertaintyJPerM2: doseWords,
  shownDoseJPerM2: doseWords,
  doseCoverageFactor: (k) => k.toFixed(3),
  lampOnS: secondsWords,
  gapsPassed: String,
  gapsFailed: String,
  unconfirmedDoseJPerM2: doseWords,
  targetAtResinJPerM2: doseWords,
  targetJPerM2: doseWords,
  depthTargetJPerM2: doseWords,
  throughPitJPerM2: doseWords,
  allowedSpotOverPaneK: kelvinWords,
  allowedHeatingKPerS: heatingWords,
  greatestSpotOverPaneK: kelvinWords,
  greatestHeatingKPerS: heatingWords,
  glassOverAirK: kelvinWords,
  heatSinkOverAirK: kelvinWords,
  glassWarmedK: kelvinWords,
  glassUsuallyWarmedK: kelvinWords,
  heatSinkWarmedK: kelvinWords,
  heatSinkUsuallyWarmedK: kelvinWords,
  heatSinkCooledK: kelvinWords,
  positionsPlanned: String,
  fieldsPlanned: String,
  clockOffAtMostRatio: (ratio) => `${(100 * ratio).toFixed(2)}${GAP}%`,
  clockLooks: (n) => n.toFixed(0),
  clockComparedS: secondsWords,
  longestFrameGapS: hundredthsWords,
  uncountedS: hundredthsWords,
  shieldSeenOpenS: clockWords,
  doseUncountedJPerM2: doseWords,
  lampOnUncountedS: hundredthsWords,
  openResinDoseJPerM2: smallDoseWords,
  openResinUnseenJPerM2: smallDoseWords,
  openResinShareRatio: shareWords,
};
