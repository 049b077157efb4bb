/**
 * How the report writes numbers for people: always with the unit, pressures always marked gauge or
 * absolute, trade units in brackets as a courtesy. It also holds the words for the journal's short
 * names. No sentence here claims anything about the glass.
 */

import type { EndReason, Measurement, Outcome } from '../core/events.ts';
import type { PhaseId } from '../core/phases.ts';
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
export function pressureWords(pa: number | null, atmospherePa: number | null): string {
  if (pa === null) return 'no dwell finished';
  return atmospherePa === null ? kPaAbs(pa) : `${kPaAbs(pa)} (${gaugeWords(pa, atmospherePa)})`;
}

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

export const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** 'no alarms', '1 alarm', '2 alarms'. */
export const counted = (n: number, what: string): string =>
  `${n === 0 ? 'no' : n} ${what}${n === 1 ? '' : 's'}`;

/** 'vacuum-too-deep' to 'vacuum too deep'. */
export const plainWords = (name: string): string => name.replaceAll('-', ' ');

export const MEASURED_WORDS: Readonly<
  Record<Measurement, { readonly label: string; readonly write: (value: number) => string }>
> = {
  atmospherePa: { label: 'Local atmosphere, gauge zero of this job', write: kPaAbs },
  lampLastKnownWPerM2: { label: 'Irradiance when the lamp was last used', write: lightWords },
  airLeftRatio: { label: 'Share of the air left by the vacuum', write: shareWords },
  leakRatePaM3PerS: { label: 'Leak rate of the seal', write: leakWords },
  leakRateUncertaintyPaM3PerS: {
    label: 'Uncertainty of the leak rate (sample scatter, 95 %)',
    write: leakWords,
  },
  risePlateauPa: {
    label: 'Plateau of the rise, above the pressure at isolation',
    write: risePaWords,
  },
  vacuumReachedPa: { label: 'Vacuum at the end of a dwell', write: kPaAbs },
  pressureReachedPa: { label: 'Pressure at the end of a dwell', write: kPaAbs },
  irradianceMeanWPerM2: { label: 'Mean irradiance while the lamp was on', write: lightWords },
  doseJPerM2: { label: 'Dose', write: doseWords },
  doseUncertaintyJPerM2: { label: 'Standard uncertainty of the dose', write: doseWords },
  doseCoverageFactor: {
    label: 'Coverage factor k of the dose',
    write: (k) => k.toFixed(3),
  },
  lampOnS: { label: 'Lamp on', write: secondsWords },
  targetJPerM2: { label: 'Target of this job', write: doseWords },
  breakTargetJPerM2: { label: 'Dose required by the depth of the break', write: doseWords },
  allowedSpotOverPaneK: { label: 'Spot above pane, limit for this leg', write: kelvinWords },
  allowedHeatingKPerS: { label: 'Heating rate, limit for this leg', write: heatingWords },
  greatestSpotOverPaneK: { label: 'Spot above pane, highest', write: kelvinWords },
  greatestHeatingKPerS: { label: 'Heating or cooling rate, highest', write: heatingWords },
  openResinDoseJPerM2: {
    label: 'Daylight on open resin, measured at the sensor',
    write: smallDoseWords,
  },
  openResinUnseenJPerM2: {
    label: 'Daylight below the sensor’s threshold, at most',
    write: smallDoseWords,
  },
  openResinShareRatio: {
    label: 'Daylight on open resin, share of the setting dose',
    write: shareWords,
  },
  fillIrradianceMeanWPerM2: { label: 'Fill: mean irradiance during its cure', write: lightWords },
  fillDoseJPerM2: { label: 'Fill: dose', write: doseWords },
  fillDoseUncertaintyJPerM2: {
    label: 'Fill: standard uncertainty of the dose',
    write: doseWords,
  },
  fillLampOnS: { label: 'Fill: lamp on', write: secondsWords },
  fillTargetJPerM2: { label: 'Fill: target of this job', write: doseWords },
  fillThroughPitJPerM2: {
    label: 'Fill: further light through the pit resin (calculated from its depth, not judged)',
    write: doseWords,
  },
  pitIrradianceMeanWPerM2: { label: 'Pit: mean irradiance during its cure', write: lightWords },
  pitDoseJPerM2: { label: 'Pit: dose', write: doseWords },
  pitDoseUncertaintyJPerM2: { label: 'Pit: standard uncertainty of the dose', write: doseWords },
  pitLampOnS: { label: 'Pit: lamp on', write: secondsWords },
  pitTargetJPerM2: { label: 'Pit: target of this job', write: doseWords },
  pitDepthTargetJPerM2: { label: 'Pit: dose required by its depth', write: doseWords },
  pitOpenResinDoseJPerM2: {
    label: 'Pit: daylight on open resin, measured at the sensor',
    write: smallDoseWords,
  },
  pitOpenResinUnseenJPerM2: {
    label: 'Pit: daylight below the sensor’s threshold, at most',
    write: smallDoseWords,
  },
  pitOpenResinShareRatio: {
    label: 'Pit: daylight on open resin, share of the setting dose',
    write: shareWords,
  },
};

export const OUTCOME_WORDS: Readonly<Record<Outcome, string>> = {
  clear: 'The person found the break clear, level and hard.',
  'mark-remains': 'The person found that a mark remains.',
};

export const END_WORDS: Readonly<Record<EndReason, string>> = {
  completed: 'completed',
  'stopped-by-person': 'stopped by a person',
  alarm: 'ended by an alarm',
  interrupted: 'interrupted',
  fault: 'ended by a fault of the program or the board',
};

/** Questions whose answer is a finding. For all other steps YES means that the step is done. */
export const QUESTION_WORDS: Readonly<Partial<Record<PhaseId, string>>> = {
  'job-sheet': 'Is this the job?',
  'ask-bubbles': 'Do bubbles still rise in the resin?',
  'bubbles-stay': 'Bubbles still rise and the longest vacuum is over: press resin in?',
  'ask-clear': 'Pressure is off: is the break all clear?',
  'offer-cycle': 'Not clear: run one more cycle?',
  'accept-mark': 'A mark may remain: cure anyway?',
  'final-look': 'Clear, level and hard all over?',
  result: 'Result read, record closed?',
};
