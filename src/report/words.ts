/**
 * How the report writes numbers for people: always with the unit, pressures always marked gauge or
 * absolute, trade units in brackets as a courtesy. It also holds the words for the journal's short
 * names. No sentence here claims anything about the glass.
 */

import type { EndReason, HoldReason, Outcome, RechargeWhy, RemedyId } from '../core/events.ts';
import type { Measurement, Portion } from '../core/measurements.ts';
import type { PhaseId } from '../core/phases.ts';
import {
  celsiusFromK,
  inHgFromPa,
  kPaFromPa,
  mJPerCm2FromJPerM2,
  mWPerCm2FromWPerM2,
  psiFromPa,
} from '../core/units.ts';
import type { MeasuredRow } from './timeline.ts';

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

/** '14 h 3 min', or '25 min' below an hour. */
export function hoursWords(s: number): string {
  const minutes = Math.round(s / 60);
  const hours = Math.floor(minutes / 60);
  return `${hours === 0 ? '' : `${hours} h `}${minutes % 60} min`;
}

export const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** 'no alarms', '1 alarm', '2 alarms'. */
export const counted = (n: number, what: string): string =>
  `${n === 0 ? 'no' : n} ${what}${n === 1 ? '' : 's'}`;

/** 'vacuum-too-deep' to 'vacuum too deep'. */
export const plainWords = (name: string): string => name.replaceAll('-', ' ');

/** How a portion and the place that its resin fills are called; null is both at once. */
export interface PortionWords {
  /** Before what is said of it. */
  readonly prefix: string;
  readonly place: string;
  readonly resin: string;
}

const OF_BREAK = { place: 'break', resin: 'the resin' };
const PORTION_WORDS: Readonly<Record<Portion, PortionWords>> = {
  fill: { prefix: 'fill: ', ...OF_BREAK },
  pit: { prefix: 'pit: ', place: 'pit', resin: 'the pit resin' },
};
const BOTH_WORDS: PortionWords = { prefix: '', ...OF_BREAK };

export const portionWords = (portion: Portion | null): PortionWords =>
  portion === null ? BOTH_WORDS : PORTION_WORDS[portion];

interface Wording {
  readonly label: string | ((words: PortionWords) => string);
  readonly write: (value: number) => string;
}

const MEASURED_WORDS: Readonly<Record<Measurement, Wording>> = {
  atmospherePa: { label: 'local atmosphere, gauge zero of this job', write: kPaAbs },
  airLastJobPa: { label: 'local atmosphere in the last complete job', write: kPaAbs },
  pumpStrengthRatio: {
    label: 'pump strength shown by the vacuum, of its data sheet',
    write: (ratio) => `${(100 * ratio).toFixed(0)} %`,
  },
  lampLastKnownWPerM2: { label: 'irradiance when the lamp was last used', write: lightWords },
  airLeftRatio: { label: 'share of the air left by the vacuum', write: shareWords },
  furtherCures: { label: 'further doses, because the resin was soft', write: String },
  leakRatePaM3PerS: { label: 'leak rate of the seal', write: leakWords },
  leakRateUncertaintyPaM3PerS: {
    label: 'uncertainty of the leak rate (sample scatter, 95 %)',
    write: leakWords,
  },
  risePlateauPa: {
    label: 'plateau of the rise, above the pressure at isolation',
    write: risePaWords,
  },
  vacuumReachedPa: { label: 'vacuum at the end of a dwell', write: kPaAbs },
  pressureReachedPa: { label: 'pressure at the end of a dwell', write: kPaAbs },
  irradianceMeanWPerM2: { label: 'mean irradiance while the lamp was on', write: lightWords },
  doseJPerM2: { label: 'dose', write: doseWords },
  doseUncertaintyJPerM2: { label: 'standard uncertainty of the dose', write: doseWords },
  shownDoseJPerM2: {
    label: 'dose shown between interruptions of the lamp, at least',
    write: doseWords,
  },
  doseCoverageFactor: {
    label: 'coverage factor k of the dose',
    write: (k) => k.toFixed(3),
  },
  lampOnS: { label: 'lamp on', write: secondsWords },
  gapsPassed: { label: 'interruptions of the lamp that passed', write: String },
  gapsFailed: { label: 'interruptions of the lamp that failed', write: String },
  unconfirmedDoseJPerM2: {
    label: 'part of the dose not borne out by the lamp’s known output',
    write: doseWords,
  },
  targetAtResinJPerM2: { label: 'target of this job at the resin', write: doseWords },
  targetJPerM2: { label: 'target of this job at the sensor', write: doseWords },
  depthTargetJPerM2: {
    label: ({ place }) => `dose required by the depth of the ${place}`,
    write: doseWords,
  },
  throughPitJPerM2: {
    label: 'further light through the pit resin (calculated from its depth, not judged)',
    write: doseWords,
  },
  allowedSpotOverPaneK: { label: 'spot above pane, limit for this leg', write: kelvinWords },
  allowedHeatingKPerS: { label: 'heating rate, limit for this leg', write: heatingWords },
  greatestSpotOverPaneK: { label: 'spot above pane, highest', write: kelvinWords },
  greatestHeatingKPerS: { label: 'heating or cooling rate, highest', write: heatingWords },
  glassOverAirK: { label: 'glass above the air before the first light', write: kelvinWords },
  heatSinkOverAirK: {
    label: 'lamp’s heat sink above the air before the first light',
    write: kelvinWords,
  },
  glassWarmedK: { label: 'glass warmed by the lamp', write: kelvinWords },
  glassUsuallyWarmedK: { label: 'usual warming of glass by this light', write: kelvinWords },
  heatSinkWarmedK: { label: 'heat sink warmed by the lamp', write: kelvinWords },
  heatSinkUsuallyWarmedK: {
    label: 'usual warming of the heat sink by this power',
    write: kelvinWords,
  },
  heatSinkCooledK: { label: 'heat sink cooled after the lamp', write: kelvinWords },
  clockOffAtMostRatio: {
    label: 'board and host clocks differ by at most',
    write: (ratio) => `${(100 * ratio).toFixed(2)}${GAP}%`,
  },
  clockLooks: { label: 'comparisons of the clocks', write: (n) => n.toFixed(0) },
  clockComparedS: { label: 'time over which the clocks were compared', write: secondsWords },
  longestFrameGapS: {
    label: 'longest time without a frame',
    write: (s) => `${s.toFixed(2)}${GAP}s`,
  },
  uncountedS: {
    label: 'time between late frames, counted for nothing',
    write: (s) => `${s.toFixed(2)}${GAP}s`,
  },
  shieldSeenOpenS: { label: 'shield seen open before the cure, at', write: clockWords },
  doseUncountedJPerM2: { label: 'light in that time, at most', write: doseWords },
  lampOnUncountedS: { label: 'lamp on in that time', write: (s) => `${s.toFixed(2)}${GAP}s` },
  openResinDoseJPerM2: {
    label: 'daylight on open resin, measured at the sensor',
    write: smallDoseWords,
  },
  openResinUnseenJPerM2: {
    label: 'daylight below the sensor’s threshold, at most',
    write: smallDoseWords,
  },
  openResinShareRatio: {
    label: ({ resin }) => `daylight on open resin, share of the setting dose of ${resin}`,
    write: shareWords,
  },
};

/** A measurement: its name, its portion, and its value with a unit. */
export function measuredWords({ name, portion, value }: Omit<MeasuredRow, 'atS'>): {
  readonly label: string;
  readonly value: string;
} {
  const words = portionWords(portion);
  const { label, write } = MEASURED_WORDS[name];
  const said = typeof label === 'string' ? label : label(words);
  return { label: capital(`${words.prefix}${said}`), value: write(value) };
}

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

export const HOLD_REASON_WORDS: Readonly<Record<HoldReason, string>> = {
  'leg-grew': 'a leg grew',
  'resin-inside': 'resin shows on the inner side',
  'something-else': 'something else',
};

/** Questions whose answer is a finding. For all other steps YES means that the step is done. */
export const RECHARGE_WORDS: Readonly<Record<RechargeWhy, string>> = {
  'injector-dry': 'a person saw that the injector was dry',
  reseated: 'the foot had been lifted off the glass, which leaves resin on it',
  'thinner-resin': 'a thinner resin was put in as a remedy',
  'after-cycles': 'after as many cycles as the profile allows one charge',
};

export const REMEDY_WORDS: Readonly<Record<RemedyId, string>> = {
  'longer-vacuum': 'longer vacuum in the next cycle',
  'probe-and-flex': 'probed and flexed gently beside the legs',
  warmth: 'a wide area warmed gently',
  'thinner-resin': 'thinner resin',
  'lower-pressure': 'lower pressure from then on',
  'open-pit': 'mouth of the break freed at the pit',
  'leave-and-return': 'left alone for a while',
};

export const QUESTION_WORDS: Readonly<Partial<Record<PhaseId, string>>> = {
  'job-sheet': 'Is this the job?',
  'ask-bubbles': 'Do bubbles still rise in the resin?',
  'bubbles-stay': 'Bubbles still rise and the longest vacuum is over: press resin in?',
  'ask-clear': 'Pressure is off: is the break all clear?',
  'offer-remedy': 'Not clear: carry out the remedy offered?',
  'offer-cycle': 'Not clear: run one more cycle?',
  'ask-resin': 'Is there resin left in the injector?',
  'air-jump': 'The air has changed by more than weather does: moved to another altitude?',
  'measure-leg': 'A leg grew: is the longest one past the limit of this repair?',
  'accept-mark': 'A mark may remain: cure anyway?',
  'cycle-or-end': 'Not cured with a mark: run another cycle?',
  scrape: 'Scraped level: hard all over?',
  'final-look': 'Clear, level and hard all over?',
  result: 'Result read, record closed?',
};
